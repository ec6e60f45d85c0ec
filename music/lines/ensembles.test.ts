import { describe, expect, it } from 'vitest';
import { lineId } from '../basis/ids.ts';
import { writeWrittenScore } from '../formats/musicxml-writer/write-written-score.ts';
import { readMusicXml } from '../formats/musicxml/read-score.ts';
import { excerptOfBars } from '../score/excerpt.ts';
import type { Score } from '../score/score.ts';
import { musicXmlFaults } from '../../tests/support/musicxml-check.ts';
import { line, meter, note, rest, voices } from '../../tests/support/score-builders.ts';
import { allOn, splitOf } from '../../tests/support/split-builders.ts';
import { fourVoices, oneGuitar, stringQuartet, type Ensemble } from './ensembles.ts';
import { writeOut, type WriteOutOptions, type WrittenOut } from './write-out.ts';

function written(score: Score, split: ReturnType<typeof splitOf>, more: Partial<WriteOutOptions>): WrittenOut {
  const whole = excerptOfBars(score, score.bars[0]!.id, score.bars.at(-1)!.id)!;
  return writeOut(score, split, whole, { lengths: 'written', ...more });
}

const four = voices(meter(4, 4), [note('C5', 4)], [note('G4', 4)], [note('E3', 4)], [note('C3', 4)]);
const fourLines = splitOf({ melody: ['n1'], middle: ['n2'], tenor: ['n3'], bass: ['n4'] });

/** A clarinet in B flat: written a whole tone above where it sounds. **Source** common practice, no source. */
const clarinets: Ensemble = {
  name: 'Clarinets',
  players: [
    {
      ...{ name: 'Clarinet', abbreviation: 'Cl.', lowestMidi: 50, highestMidi: 94 },
      clefs: [{ sign: 'G', staffLine: 2, octave: 0 }],
      transposition: { chromatic: 2, diatonic: 1, octaves: 0 },
    },
  ],
  bracket: 'joined',
};

function soundsOf(xml: string): unknown {
  const source = { fileName: 'written', firstNoteNumber: 1, firstBarNumber: 1 };
  const read = readMusicXml(new TextEncoder().encode(xml), source);
  if (!read.ok) throw new Error(JSON.stringify(read.refusal));
  return read.value.score.notes.map(({ sound }) =>
    sound.kind === 'pitched' ? [sound.soundingMidi, sound.written] : null,
  );
}

describe('[R43] ensembles', () => {
  it('give each line its player’s name and clef', () => {
    const clefs = (ensemble: Ensemble): unknown =>
      written(four, fourLines, { ensemble }).value.staves.map(({ clef }) =>
        clef.sign === 'percussion' ? clef.sign : `${clef.sign}${clef.staffLine}${clef.octave === 0 ? '' : clef.octave}`,
      );
    expect(written(four, fourLines, { ensemble: stringQuartet }).value.staves[2]).toMatchObject({
      name: 'Viola (tenor)',
      letter: 'Vla.',
    });
    expect(clefs(fourVoices)).toEqual(['G2', 'G2', 'G2-1', 'F4']);
    expect(clefs(stringQuartet)).toEqual(['G2', 'G2', 'C3', 'F4']);
    expect(clefs(oneGuitar)).toEqual(['G2-1', 'G2-1', 'G2-1', 'G2-1']);
  });

  it('say which notes are out of range, and the octave that helps', () => {
    const score = line(meter(4, 4), note('E2', 2), note('E3', 2));
    const { ranges, issues } = written(score, allOn(score), { ensemble: fourVoices });
    expect(ranges).toEqual([{ line: 'melody', player: 'Soprano', notes: ['n1', 'n2'], suggestedOctaves: 2 }]);
    expect(issues).toMatchObject([{ code: 'note-unplayable', where: { barOrdinal: 1, beat: 1 } }]);
    const octaves = new Map([[lineId('melody'), 2]]);
    const moved = written(score, allOn(score), { ensemble: fourVoices, octaves });
    expect([moved.ranges, moved.issues]).toEqual([[], []]);
    expect(moved.value.staves[0]!.bars[0]!.map(({ heads }) => heads[0]!.sound)).toMatchObject([
      { pitch: { step: 'E', octave: 4 } },
      { pitch: { step: 'E', octave: 5 } },
    ]);
  });

  it('suggest nothing where no octave helps', () => {
    const score = line(meter(4, 4), note('E2', 2), note('E6', 2));
    const [soprano] = fourVoices.players;
    const narrow: Ensemble = {
      name: 'One',
      players: [{ ...soprano, lowestMidi: 61, highestMidi: 63 }],
      bracket: 'joined',
    };
    expect(written(score, allOn(score), { ensemble: narrow }).ranges[0]!.suggestedOctaves).toBeNull();
  });

  it('write transposing parts with their own key and pitches, and sound the same', () => {
    const score = line(meter(4, 4), note('Bb4', 2), note('F#4', 2));
    const xml = writeWrittenScore(written(score, allOn(score), { ensemble: clarinets }).value);
    expect(xml).toContain('<fifths>2</fifths>');
    expect(xml).toContain('<transpose><diatonic>-1</diatonic><chromatic>-2</chromatic></transpose>');
    expect(soundsOf(xml)).toEqual([
      [70, { step: 'C', alter: 0, octave: 5 }],
      [66, { step: 'G', alter: 1, octave: 4 }],
    ]);
  });

  it.each([oneGuitar, fourVoices, stringQuartet, clarinets])('are written as valid MusicXML: $name', (ensemble) => {
    const xml = writeWrittenScore(written(four, fourLines, { ensemble }).value);
    expect(musicXmlFaults(xml)).toEqual([]);
    expect((soundsOf(xml) as [number][]).map(([midi]) => midi)).toEqual([72, 67, 52, 48]);
  });

  it('leave lines of hits on their own staff', () => {
    const taps = line(meter(4, 4), rest(4));
    const split = splitOf({ taps: [] });
    expect(written(taps, split, { ensemble: fourVoices }).value.staves[0]!.clef).toEqual({ sign: 'percussion' });
  });
});

describe('[R24] clefs', () => {
  it('change where a passage lies far beyond the staff, in every excerpt alike', () => {
    const low = Array.from({ length: 16 }, () => note('E2', 1));
    const high = Array.from({ length: 16 }, () => note('E5', 1));
    const score = line(meter(4, 4), ...low, ...high);
    const { clef, clefChanges } = written(score, allOn(score), {}).value.staves[0]!;
    expect([clef, clefChanges]).toEqual([
      { sign: 'F', staffLine: 4, octave: 0 },
      [{ barIndex: 4, clef: { sign: 'G', staffLine: 2, octave: 0 } }],
    ]);
    const last = excerptOfBars(score, score.bars[5]!.id, score.bars[6]!.id)!;
    const part = writeOut(score, allOn(score), last, { lengths: 'written' }).value.staves[0]!;
    expect([part.clef, part.clefChanges]).toEqual([{ sign: 'G', staffLine: 2, octave: 0 }, []]);
  });

  it('do not change for a single low note', () => {
    const score = line(meter(4, 4), note('E5', 4), note('E2', 4), note('E5', 4));
    expect(written(score, allOn(score), {}).value.staves[0]!.clefChanges).toEqual([]);
  });
});

describe('[R44] a line’s own tablature', () => {
  const open = { string: 6, fret: 0 };
  const score = line(meter(4, 4), note('E2', 2, open), note('G4', 2));

  it('has the strings and frets of the source, and says where there are none', () => {
    const { value, issues } = written(score, allOn(score), { tablature: true });
    expect(value.staves[0]!.tablature).toEqual({ tuning: [64, 59, 55, 50, 45, 40], capoFret: 0, proposed: new Set() });
    expect(issues).toMatchObject([{ code: 'element-left-out', where: { beat: 3 } }]);
    const xml = writeWrittenScore(value);
    expect(xml).toContain('<string>6</string><fret>0</fret>');
    expect(xml).toContain('id="w.n1.1t"');
  });

  it('is not there where the line is moved away from its strings', () => {
    const octaves = new Map([[lineId('melody'), 1]]);
    expect(written(score, allOn(score), { tablature: true, octaves }).value.staves[0]!.tablature).toBeNull();
  });
});
