import { describe, expect, it } from 'vitest';
import { fingeringsOf } from '../../fingering/fingerings.ts';
import { writeOut } from '../../lines/write-out.ts';
import { excerptOfBars } from '../../score/excerpt.ts';
import type { Score } from '../../score/score.ts';
import { readMusicXml } from '../musicxml/read-score.ts';
import { musicXmlFaults } from '../../../tests/support/musicxml-check.ts';
import { allOn } from '../../../tests/support/split-builders.ts';
import { writeWrittenScore } from './write-written-score.ts';

function scoreOf(xml: string): Score {
  const read = readMusicXml(new TextEncoder().encode(xml), { fileName: 'tab', firstNoteNumber: 1, firstBarNumber: 1 });
  if (!read.ok) throw new Error(JSON.stringify(read.refusal));
  return read.value.score;
}

/** The score written out as one line over its strings, as a document. */
function withStrings(score: Score): string {
  const whole = excerptOfBars(score, score.bars[0]!.id, score.bars.at(-1)!.id)!;
  const options = { lengths: 'written', tablature: true, places: fingeringsOf(score).value } as const;
  const xml = writeWrittenScore(writeOut(score, allOn(score), whole, options).value);
  expect(musicXmlFaults(xml)).toEqual([]);
  return xml;
}

const placesOf = ({ notes }: Score): readonly unknown[] =>
  notes.map(({ sound, fingerboard }) => [sound.kind === 'pitched' ? sound.soundingMidi : null, fingerboard]);

const fretted = (string: number, fret: number, pitch: string): string =>
  `<note><pitch><step>${pitch[0]!}</step><octave>${pitch[1]!}</octave></pitch><duration>2</duration><type>half</type>
<notations><technical><string>${string}</string><fret>${fret}</fret></technical></notations></note>`;

/** Strings from the lowest line up, as letters and octaves. */
const tuned = (strings: string, capo: number): string =>
  `<staff-details><staff-lines>6</staff-lines>${strings
    .split(' ')
    .map(
      (name, index) =>
        `<staff-tuning line="${index + 1}"><tuning-step>${name[0]!}</tuning-step><tuning-octave>${name[1]!}</tuning-octave></staff-tuning>`,
    )
    .join('')}<capo>${capo}</capo></staff-details>`;

const standard = 'E2 A2 D3 G3 B3 E4';
const droppedD = 'D2 A2 D3 G3 B3 E4';

const document = (first: string, ...bars: readonly string[]): string =>
  `<score-partwise version="4.0"><part-list><score-part id="P1"><part-name>Guitar</part-name></score-part></part-list><part id="P1">${bars
    .map((bar, index) => `<measure number="${index + 1}">${index === 0 ? first : ''}${bar}</measure>`)
    .join('')}</part></score-partwise>`;

const opening = (clef: string, details: string): string =>
  `<attributes><divisions>1</divisions><time><beats>4</beats><beat-type>4</beat-type></time>${clef}${details}</attributes>`;

const tabClef = '<clef><sign>TAB</sign><line>5</line></clef>';

describe('[R44] strings that are tuned anew under a line', () => {
  // The lowest string let down a whole tone: E2 is then at fret 2. Open strings of a guitar by MIDI number: common practice, no source.
  const source = document(
    opening(tabClef, tuned(standard, 0)),
    fretted(6, 0, 'E2') + fretted(6, 2, 'F2'),
    `<attributes>${tuned(droppedD, 0)}</attributes>${fretted(6, 2, 'E2')}${fretted(5, 0, 'A2')}`,
    `${fretted(6, 0, 'D2')}<attributes>${tuned(droppedD, 2)}</attributes>${fretted(6, 0, 'E2')}`,
  );
  const score = scoreOf(source);
  const xml = withStrings(score);
  const detailsIn = (bar: number): string[] =>
    [...xml.split('<measure ')[bar]!.matchAll(/<staff-details.*?<\/staff-details>/g)].map(([text]) => text);

  it('are read with the moment from which they are', () => {
    const [part] = score.parts;
    expect(part!.tuning).toEqual([64, 59, 55, 50, 45, 40]);
    expect(part!.retunings).toEqual([
      { onsetTicks: 4, tuning: [64, 59, 55, 50, 45, 38], capoFret: 0 },
      { onsetTicks: 10, tuning: [64, 59, 55, 50, 45, 38], capoFret: 2 },
    ]);
  });

  it('are told at the bar, or at the note within it', () => {
    expect(detailsIn(1)).toHaveLength(1);
    expect(detailsIn(2)).toHaveLength(1);
    expect(detailsIn(2)[0]).toContain('<tuning-step>D</tuning-step><tuning-octave>2</tuning-octave>');
    expect(detailsIn(3)).toEqual([expect.stringContaining('<capo>2</capo>')]);
    expect(xml.split('<measure ')[3]).toMatch(/<backup>.*<fret>0<\/fret>.*<staff-details.*<fret>0<\/fret>/s);
  });

  it('are told as they are when the line goes on, whatever they were while it rested', () => {
    const low = score.notes.findIndex(({ onsetTicks }) => onsetTicks === 10);
    const notes = score.notes.filter((_, index) => index === 0 || index >= low);
    const rested = { ...score, notes };
    const whole = excerptOfBars(rested, score.bars[0]!.id, score.bars.at(-1)!.id)!;
    const { value } = writeOut(rested, allOn(rested), whole, { lengths: 'written', tablature: true });
    expect(value.staves[0]!.tablature!.changes).toEqual([
      { barIndex: 2, onsetTicks: 0, tuning: [64, 59, 55, 50, 45, 38], capoFret: 2 },
    ]);
  });

  it('give the same frets and pitches when they are read back', () => {
    const back = scoreOf(xml);
    expect(placesOf(back)).toEqual(placesOf(score));
    expect(back.parts[0]!.retunings?.map(({ tuning, capoFret }) => [tuning, capoFret])).toEqual(
      score.parts[0]!.retunings?.map(({ tuning, capoFret }) => [tuning, capoFret]),
    );
  });

  it('are those in force where an excerpt begins', () => {
    const part = excerptOfBars(score, score.bars[1]!.id, score.bars[1]!.id)!;
    const { value } = writeOut(score, allOn(score), part, { lengths: 'written', tablature: true });
    expect(value.staves[0]!.tablature).toMatchObject({ tuning: [64, 59, 55, 50, 45, 38], capoFret: 0 });
    expect(value.staves[0]!.tablature!.changes).toBeUndefined();
  });
});

describe('[R44] frets in brackets', () => {
  const plainNotes = '<note><pitch><step>E</step><octave>4</octave></pitch><duration>4</duration></note>';
  const clef = '<clef><sign>G</sign><line>2</line><clef-octave-change>-1</clef-octave-change></clef>';
  const score = scoreOf(document(opening(clef, ''), plainNotes));
  const xml = withStrings(score);

  it('are proposed, and read back as such: the file has none', () => {
    expect(xml).toContain('<notehead parentheses="yes">normal</notehead>');
    const back = scoreOf(xml);
    expect(placesOf(back)).toEqual(placesOf(score));
    expect(back.notes[0]!.fingerboard).toBeNull();
    expect([...fingeringsOf(back).value.values()]).toEqual([...fingeringsOf(score).value.values()]);
    expect(back.words).toEqual([]);
  });

  it('are frets like others in a document of somebody else', () => {
    const others = xml.replace(/<miscellaneous>.*<\/miscellaneous>/s, '');
    expect(scoreOf(others).notes[0]!.fingerboard).not.toBeNull();
  });
});
