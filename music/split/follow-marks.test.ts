import { describe, expect, it } from 'vitest';
import { separateVoices } from './separate-voices.ts';
import type { SeparateOptions, VoiceNote } from './voice-note.ts';

const ticksPerQuarter = 4;

/** Two bars of a tune in thirds over a bass: rows of onset, length and pitch. */
const thirds: readonly (readonly [number, number, number])[] = [
  [0, 16, 45],
  [0, 4, 69],
  [0, 4, 60],
  [4, 4, 71],
  [4, 4, 62],
  [8, 4, 72],
  [8, 4, 64],
  [12, 4, 71],
  [12, 4, 62],
  [16, 16, 40],
  [16, 8, 71],
  [16, 8, 56],
  [24, 8, 69],
  [24, 8, 57],
];

const at = (startTicks: number, up = 0, rows = thirds): readonly VoiceNote[] =>
  rows.map(([onset, length, midi]) => ({ onsetTicks: startTicks + onset, lengthTicks: length, midi: midi + up }));

const splitOf = (notes: readonly VoiceNote[], options: Partial<SeparateOptions> = {}) =>
  separateVoices(notes, { ticksPerQuarter, ...options });

/** What stands after one note was marked, everything proposed being taken. */
function marked(notes: readonly VoiceNote[], pins: ReadonlyMap<number, number>, lineCount?: number) {
  const { labels: present } = splitOf(notes, { lineCount });
  const after = splitOf(notes, { lineCount, pins, present });
  const changed = [...after.labels.keys()].filter((note) => after.labels[note] !== present[note] && !pins.has(note));
  return { present, after, changed };
}

describe('what follows a mark', () => {
  const varied = thirds.map((row, index) => (index === 7 ? ([12, 4, 74] as const) : row));
  it.each([
    ['the same music again', at(32)],
    ['the same music a fourth higher', at(32, 5)],
    ['the same music with another note beside it', at(32, 0, varied)],
  ])('%s follows', (_way, again) => {
    const notes = [...at(0), ...again];
    const lower = 6;
    const { present, after } = marked(
      notes,
      new Map([[lower, 1 - splitOf(notes, { lineCount: 2 }).labels[lower]!]]),
      2,
    );
    expect(after.labels[lower]).not.toBe(present[lower]);
    expect(after.labels[lower + thirds.length]).toBe(after.labels[lower]);
  });

  it('is nothing where no like place is', () => {
    const notes = [...at(0), ...at(32, 0, [[0, 8, 52], [8, 8, 53]])]; // prettier-ignore
    const { changed } = marked(notes, new Map([[6, 1 - splitOf(notes, { lineCount: 2 }).labels[6]!]]), 2);
    expect(changed).toEqual([]);
  });

  it('makes way where lines are single: who takes the place of another sends it to the place left', () => {
    const crossing: readonly (readonly [number, number, number])[] = [
      [0, 4, 67],
      [0, 4, 60],
      [4, 4, 65],
      [4, 4, 62],
      [8, 4, 64],
      [8, 4, 65],
      [12, 4, 60],
      [12, 4, 67],
    ];
    const notes = at(0, 0, crossing);
    const { labels } = splitOf(notes, { lineCount: 2 });
    const { after } = marked(notes, new Map([[6, 1 - labels[6]!]]), 2);
    expect(after.labels[6]).not.toBe(labels[6]);
    expect(after.labels[7]).toBe(labels[6]);
  });

  it('leaves a note alone that was passed over between two marks of one run', () => {
    const notes = [...at(0), ...at(32), ...at(64), ...at(96)];
    const [first, second, third] = [6, 6 + thirds.length, 6 + 2 * thirds.length] as const;
    const ownLine = 2;
    const once = marked(notes, new Map([[first, ownLine]]), 2);
    expect([once.after.labels[second], once.after.labels[third]]).toEqual([ownLine, ownLine]);
    const run = new Map([
      [first, ownLine],
      [third, ownLine],
    ]);
    expect(marked(notes, run, 2).after.labels[second]).toBe(once.present[second]);
  });

  it('puts a line that only marks know where its notes lie', () => {
    const notes = at(0);
    const { after } = marked(notes, new Map([2, 4, 6, 8].map((note) => [note, 2])), 2);
    expect(after.order).toEqual([0, 2, 1]);
    expect(after.lineCount).toBe(3);
  });

  it('is the same in whatever order the marks were made', () => {
    const notes = [...at(0), ...at(32)];
    const pins = [
      [6, 1],
      [4, 1],
      [11, 0],
    ] as const;
    expect(splitOf(notes, { pins: new Map(pins) })).toEqual(splitOf(notes, { pins: new Map([...pins].reverse()) }));
  });
});
