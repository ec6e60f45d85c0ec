import { describe, expect, it } from 'vitest';
import { demoPieces } from '../../seed/demo-pieces.ts';
import { midiOf } from '../../music/basis/pitch.ts';
import { readMusicXml } from '../../music/formats/musicxml/read-score.ts';
import { sourceOfWrittenHead } from '../../music/formats/musicxml-writer/written-ids.ts';
import { writeWrittenScore } from '../../music/formats/musicxml-writer/write-written-score.ts';
import { writeOut } from '../../music/lines/write-out.ts';
import { excerptOfBars } from '../../music/score/excerpt.ts';
import type { Score } from '../../music/score/score.ts';
import type { WrittenScore } from '../../music/score/written.ts';
import { registryScore } from '../../measure/registry-scores.ts';
import { musicXmlFaults } from '../support/musicxml-check.ts';
import { asWritten, secondReading } from '../support/second-reader.ts';
import { splitByVoice } from '../support/split-by-voice.ts';

function demoScore(index: number): Score {
  const read = readMusicXml(new TextEncoder().encode(demoPieces()[index]!.musicXml), {
    fileName: 'demo',
    firstNoteNumber: 1,
    firstBarNumber: 1,
  });
  if (!read.ok) throw new Error(JSON.stringify(read.refusal));
  return read.value.score;
}

const scores: readonly (readonly [string, () => Score])[] = [
  ['the first demo piece', () => demoScore(0)],
  ['the second demo piece', () => demoScore(1)],
  ['BWV 773', () => registryScore('v2/BWV_0773.xml')],
  ['BWV 775', () => registryScore('v2/BWV_0775.xml')],
  ['a song with tuplets', () => registryScore('v3/SchbAvMaSample.xml')],
  ['a trio', () => registryScore('v3/MozartTrio.xml')],
];

function writtenOut(score: Score, tablature = false): WrittenScore {
  const excerpt = excerptOfBars(score, score.bars[0]!.id, score.bars.at(-1)!.id)!;
  return writeOut(score, splitByVoice(score), excerpt, { lengths: 'written', tablature }).value;
}

interface WrittenPlace {
  readonly midi: number;
  readonly onsetQuarters: number;
  readonly lengthQuarters: number;
}

/** Every head in the order of its staff, where the written-out score puts it. */
function placesOf(written: WrittenScore): WrittenPlace[] {
  return written.staves.flatMap(({ bars }) => {
    let barTicks = 0;
    return bars.flatMap((events, index) => {
      const startTicks = barTicks;
      barTicks += written.bars[index]!.lengthTicks;
      return events.flatMap(({ heads, onsetTicks, lengthTicks }) =>
        heads.map(({ sound }): WrittenPlace => ({
          midi: sound.kind === 'hit' ? 0 : midiOf(sound.pitch),
          onsetQuarters: (startTicks + onsetTicks) / written.ticksPerQuarter,
          lengthQuarters: lengthTicks / written.ticksPerQuarter,
        })),
      );
    });
  });
}

/** Bars whose own length differs from their meter: verovio gives bar rests in them the meter's length. */
const hasOddBars = ({ bars }: WrittenScore): boolean => bars.slice(1).some(({ isPartial }) => isPartial);

describe.each(scores)('%s, written out by its voices', (_, read) => {
  const score = read();
  const written = writtenOut(score);
  const xml = writeWrittenScore(written);
  const allIds = [...xml.matchAll(/<note id="([^"]+)"/g)].map((match) => match[1]!);
  const graces = new Set<string>(score.graces.map(({ id }) => id));
  const ids = allIds.filter((id) => !graces.has(sourceOfWrittenHead(id)!));

  it('is read by verovio 6.3.0 without complaint, with the same heads at the same places', async () => {
    const reading = await secondReading(xml);
    expect(reading.log).toBe('');
    expect([...reading.noteIds].toSorted()).toEqual(ids.toSorted());
    const ours = placesOf(written);
    const timed = await secondReading(asWritten(xml));
    const theirs = ids.map((id) => timed.notes.get(id)!);
    expect(theirs.map(({ writtenMidi }) => writtenMidi)).toEqual(ours.map(({ midi }) => midi));
    if (!hasOddBars(written)) {
      ours.forEach(({ onsetQuarters }, index) => {
        expect(theirs[index]!.onsetQuarters).toBeCloseTo(onsetQuarters, 5);
      });
    }
  });

  it('is valid MusicXML 4.0 in order, content and values, also with tablature', () => {
    expect(musicXmlFaults(xml)).toEqual([]);
    expect(musicXmlFaults(writeWrittenScore(writtenOut(score, true)))).toEqual([]);
  });

  it('is read by verovio with its tablature, whose heads stand once more', async () => {
    const withStrings = writeWrittenScore(writtenOut(score, true));
    const reading = await secondReading(withStrings);
    expect(reading.log).toBe('');
    expect(reading.noteIds.size + reading.graceCount).toBe([...withStrings.matchAll(/<note id=/g)].length);
  });

  it('has as many rests in verovio as in the document', async () => {
    const { restCount } = await secondReading(xml);
    expect(restCount).toBe([...xml.matchAll(/<rest\b/g)].length);
  });

  it('links every head to a note of the score', () => {
    const known = new Set<string>(score.notes.map(({ id }) => id));
    expect(ids.length).toBeGreaterThan(0);
    expect(allIds.length - ids.length).toBe(graces.size);
    for (const id of ids) expect(known).toContain(sourceOfWrittenHead(id));
  });

  it('sounds the same when it is read back', () => {
    const read = readMusicXml(new TextEncoder().encode(xml), {
      fileName: 'written',
      firstNoteNumber: 1,
      firstBarNumber: 1,
    });
    if (!read.ok) throw new Error(JSON.stringify(read.refusal));
    const back = read.value.score;
    const soundOf = (from: Score, note: Score['notes'][number]): string =>
      `${note.onsetTicks / from.ticksPerQuarter} ${note.sound.kind === 'pitched' ? note.sound.soundingMidi : 'hit'}`;
    const wanted = score.notes.flatMap((note) =>
      (note.sound.kind === 'hit' ? [note.voices[0]!] : note.voices).map(() => soundOf(score, note)),
    );
    expect(back.notes.map((note) => soundOf(back, note)).toSorted()).toEqual(wanted.toSorted());
  });
});
