import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { line, meter, note, pickup, ticksPerQuarter } from '../../tests/support/score-builders.ts';
import { noteId } from '../basis/ids.ts';
import { beatOf, barIndexAt, compareIds, inReadingOrder } from './reading-order.ts';
import type { NoteSound } from './score.ts';

const pitched = (soundingMidi: number): NoteSound => ({
  kind: 'pitched',
  soundingMidi,
  written: { step: 'C', alter: 0, octave: 4 },
  sounding: { step: 'C', alter: 0, octave: 4 },
});
const hit: NoteSound = { kind: 'hit', hit: 'lowBody', isCertain: true };

describe('reading order', () => {
  it('goes by onset, then downwards in pitch, hits last, then by id', () => {
    const rows = [
      { id: noteId('n10'), onsetTicks: 0, sound: pitched(60) },
      { id: noteId('n3'), onsetTicks: 1, sound: pitched(90) },
      { id: noteId('n9'), onsetTicks: 0, sound: pitched(60) },
      { id: noteId('n1'), onsetTicks: 0, sound: hit },
      { id: noteId('n2'), onsetTicks: 0, sound: pitched(72) },
    ];
    expect(inReadingOrder(rows).map(({ id }) => id)).toEqual(['n2', 'n9', 'n10', 'n1', 'n3']);
  });

  it('does not depend on the order in which notes are given', () => {
    const row = fc.record({
      id: fc.nat(500).map((number) => noteId(`n${number}`)),
      onsetTicks: fc.nat(4),
      sound: fc.oneof(fc.integer({ min: 50, max: 54 }).map(pitched), fc.constant(hit)),
    });
    const rows = fc.uniqueArray(row, { maxLength: 30, selector: ({ id }) => id });
    const shuffled = rows.chain((all) =>
      fc.tuple(fc.constant(all), fc.shuffledSubarray(all, { minLength: all.length })),
    );
    fc.assert(
      fc.property(shuffled, ([all, mixed]) => {
        expect(inReadingOrder(mixed)).toEqual(inReadingOrder(all));
      }),
      { seed: 20261125 },
    );
  });

  it('counts ids as people do', () => {
    expect(['n10', 'n9', 'n1', 'n100'].sort(compareIds)).toEqual(['n1', 'n9', 'n10', 'n100']);
  });
});

describe('beatOf', () => {
  const score = line(pickup(meter(6, 8), 0.5), note('C4', 0.5), note('C4', 3), note('C4', 3));

  it.each([
    [0, 1, 1],
    [0.5, 2, 1],
    [1, 2, 2],
    [3.5, 3, 1],
    [3.75, 3, 1.5],
  ])('%f quarters in is bar %i, beat %f', (quarters, ordinal, beat) => {
    const found = beatOf(score, quarters * ticksPerQuarter);
    expect(found?.barOrdinal).toBe(ordinal);
    expect(found?.beat).toBe(beat);
  });

  it('takes the last bar after the end and has none in a score without bars', () => {
    expect(barIndexAt(score.bars, 1e9)).toBe(score.bars.length - 1);
    expect(beatOf({ bars: [], ticksPerQuarter: 1 }, 0)).toBeNull();
  });
});
