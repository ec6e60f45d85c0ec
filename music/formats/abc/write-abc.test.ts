import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { anyOneVoice } from '../../../tests/support/any-score.ts';
import { fixedSeed } from '../../../tests/support/property-seed.ts';
import { chord, line, meter, note, pickup, rest, voices } from '../../../tests/support/score-builders.ts';
import { splitByVoice } from '../../../tests/support/split-by-voice.ts';
import { writeOut } from '../../lines/write-out.ts';
import { noteId } from '../../basis/ids.ts';
import type { Lyric } from '../../score/marks.ts';
import type { Score } from '../../score/score.ts';
import { readMusicXml } from '../musicxml/read-score.ts';
import { serialiseXml } from '../xml/serialise-xml.ts';
import { abcToMusicXml } from './abc-to-musicxml.ts';
import { writeAbc } from './write-abc.ts';

function abcWritten(score: Score): ReturnType<typeof writeAbc> {
  const last = score.bars.at(-1)!;
  const end = { numerator: last.lengthTicks, denominator: score.ticksPerQuarter };
  const excerpt = {
    from: { bar: score.bars[0]!.id, offset: { numerator: 0, denominator: 1 } },
    to: { bar: last.id, offset: end },
  };
  return writeAbc(writeOut(score, splitByVoice(score), excerpt, { lengths: 'written' }).value);
}

const abcOf = (score: Score): string => abcWritten(score).text;
const leftOutOf = (score: Score): string[] => abcWritten(score).issues.map(({ detail }) => detail);

function readBack(text: string): Score {
  const { value } = abcToMusicXml(text);
  const xml = serialiseXml({ doctype: null, before: [], root: value, after: [] });
  const result = readMusicXml(new TextEncoder().encode(xml), {
    fileName: 'made.abc',
    firstNoteNumber: 1,
    firstBarNumber: 1,
  });
  if (!result.ok) throw new Error(result.refusal.map(({ detail }) => detail).join(' '));
  return result.value.score;
}

const sounds = ({ notes, ticksPerQuarter }: Score): (readonly [number, number, string])[] =>
  notes
    .flatMap(({ sound, onsetTicks, lengthTicks }) => {
      if (sound.kind === 'hit') return [];
      const rounded = (ticks: number): number => Math.round((ticks / ticksPerQuarter) * 1e5) / 1e5;
      const { step, alter, octave } = sound.sounding;
      return [[rounded(onsetTicks), rounded(lengthTicks), `${step}${alter}/${octave}`] as const];
    })
    .sort((a, b) => a[0] - b[0] || (a[2] < b[2] ? -1 : 1));

const lyric = (id: string, verse: string, text: string): Lyric => ({
  note: noteId(id),
  verse,
  text,
  syllabic: 'single',
  isExtended: false,
});

const sungOf = ({ notes, lyrics }: Score): string[] =>
  lyrics.map(({ note: id, verse, text }) => `${notes.findIndex((each) => each.id === id) + 1} ${verse} ${text}`).sort();

describe('writing ABC', () => {
  it('keeps every verse in its place, also where some have no words in a line of music (ABC 2.1, lyrics, from memory)', () => {
    const score = {
      ...line(meter(2, 4), ...['C4', 'D4', 'E4', 'F4', 'G4', 'A4'].map((name) => note(name, 2))),
      lyrics: [
        lyric('n1', '10', 'last'),
        lyric('n1', '2', 'next'),
        lyric('n2', '1', 'first'),
        lyric('n2', '2', 'on'),
        lyric('n5', '2', 'and'),
        lyric('n6', '2', 'off'),
      ],
    };
    const text = abcOf(score);
    expect(text.split('\n').filter((row) => row.startsWith('w:'))).toEqual([
      'w: * first',
      'w: next on',
      'w: last',
      'w: *',
      'w: and off',
    ]);
    expect(sungOf(readBack(text))).toEqual(
      sungOf(score)
        .map((row) => row.replace('10', '3'))
        .sort(),
    );
  });

  it('writes a tune that people can read (ABC 2.1, from memory)', () => {
    const score = voices(
      [
        { meter: meter(3, 4), key: { fifths: 1, mode: 'major' }, startsRepeat: true },
        { meter: meter(3, 4), key: { fifths: 1, mode: 'major' }, repeatTimes: 2 },
      ],
      [note('G4', 1), note('F#4', 0.5), note('A4', 1.5), chord(['B3', 'D5'], 3)],
      [note('G3', 3), rest(3)],
    );
    expect(abcOf(score)).toBe(
      [
        'X:1',
        'T:Built',
        'M:3/4',
        'L:1/8',
        'Q:1/4=100',
        'V:1 name="P1/1/1" clef=treble',
        'V:2 name="P1/1/2" clef=treble-8',
        'K:G',
        'V:1',
        '|: G2 FA- A2 | [B,d]6 :|',
        'V:2',
        '|: G6 | Z :|',
        '',
      ].join('\n'),
    );
  });

  it('keeps pickups, meters, repeats and endings', () => {
    const opening = pickup(meter(4, 4), 1);
    const score = line(
      [...opening, { meter: meter(6, 8), endings: [1], repeatTimes: 2 }, { meter: meter(6, 8), endings: [2] }],
      note('C4', 1),
      note('D4', 4),
      note('E4', 3),
      note('F#4', 3),
    );
    const again = readBack(abcOf(score));
    const shape = ({ bars }: Score): unknown =>
      bars.map(({ meter: m, repeatTimes, endings, isImplicit }) => [m, repeatTimes, endings, isImplicit]);
    expect(shape(again)).toEqual(shape(score));
  });

  it('keeps every pitch with its spelling, onset and length (any one voice; hits have no place in ABC)', () => {
    fc.assert(
      fc.property(anyOneVoice, (score) => {
        const pitched = { ...score, notes: score.notes.filter(({ sound }) => sound.kind === 'pitched') };
        fc.pre(pitched.notes.length > 0);
        expect(sounds(readBack(abcOf(pitched)))).toEqual(sounds(pitched));
      }),
      { numRuns: 40, seed: fixedSeed },
    );
  });

  it('writes titles so that they are read back as they are, and none where there is none', () => {
    const plain = line(meter(4, 4), note('C4', 4));
    for (const title of ['100% Rain \\ Sun', 'Caf\\e &eacute; & Bar', 'Öl'])
      expect(readBack(abcOf({ ...plain, title })).title).toBe(title);
    expect(abcOf({ ...plain, title: '' })).not.toContain('T:');
  });

  it('sets notes under one beam together, and writes the finger of a single note', () => {
    const plain = line(meter(4, 4), ...['C4', 'D4', 'E4', 'F4'].map((name) => note(name, 0.5)), note('G4', 2));
    const notes = plain.notes.map((one, index) => ({ ...one, frettingFinger: index === 1 ? 2 : null }));
    expect(abcOf({ ...plain, notes })).toContain('c!2!d ef g4');
  });

  it('writes no repeat for a sign that repeats once, and tells it', () => {
    const once = { meter: meter(4, 4), repeatTimes: 1 };
    const score = voices([once, { meter: meter(4, 4) }], [note('C4', 4), note('D4', 4)]);
    expect(readBack(abcOf(score)).bars.map(({ repeatTimes }) => repeatTimes)).toEqual([0, 0]);
    expect(leftOutOf(score)).toEqual(['ABC has no place for repeat signs for one time; left out.']);
  });

  it('writes ornaments, and tells those that it has no signs for', () => {
    const kinds = ['trill', 'mordent', 'invertedMordent', 'turn', 'invertedTurn'] as const;
    const score = line(meter(5, 4), ...kinds.map((kind) => note('C4', 1, { ornaments: [{ kind }] })));
    expect(readBack(abcOf(score)).notes.map(({ ornaments }) => ornaments)).toEqual(kinds.map((kind) => [{ kind }]));
    expect(leftOutOf(score)).toEqual([]);
    const odd = line(
      meter(4, 4),
      note('C4', 1, { ornaments: [{ kind: 'trill', alterAbove: -1 }] }),
      note('C4', 1, { ornaments: [{ kind: 'delayedTurn' }] }),
      note('C4', 2, { ornaments: [{ kind: 'tremolo', strokes: 2 }] }),
    );
    expect(leftOutOf(odd)).toEqual([
      'ABC has no place for accidentals of ornaments; left out.',
      'ABC has no place for delayed turns; left out.',
      'ABC has no place for tremolos; left out.',
    ]);
  });

  it('tells what it leaves out of the hands', () => {
    const plain = line(meter(4, 4), note('C4', 2), note('D4', 2));
    const [first, second] = plain.notes;
    const score: Score = {
      ...plain,
      notes: [
        { ...first!, pluckingFinger: 'p', techniques: ['bend', 'letRing'] },
        { ...second!, techniques: ['slide'] },
      ],
      bends: [{ note: first!.id, kind: 'bend', semitones: 2 }],
    };
    expect(leftOutOf(score)).toEqual([
      'ABC has no place for bends; left out.',
      'ABC has no place for how far strings are bent; left out.',
      'ABC has no place for let ring; left out.',
      'ABC has no place for letters of the plucking hand; left out.',
      'ABC has no place for slides; left out.',
    ]);
  });
});
