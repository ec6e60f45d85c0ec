import { describe, expect, it } from 'vitest';
import { accuracyOf, rightNotes } from './accuracy.ts';
import { agreementOf } from './links.ts';
import type { Piece } from './piece.ts';

/** **Shape** rows of onset, pitch and voice; every note lasts a tick. */
const pieceOf = (...rows: readonly (readonly [onsetTicks: number, midi: number, voice: string])[]): Piece => ({
  id: 'made by hand',
  ticksPerQuarter: 1,
  meters: [],
  notes: rows.map(([onsetTicks, midi, voice]) => ({ onsetTicks, lengthTicks: 1, midi, voice })),
});

const two = pieceOf(
  [0, 48, 'low'],
  [0, 60, 'high'],
  [1, 48, 'low'],
  [1, 60, 'high'],
  [2, 48, 'low'],
  [2, 60, 'high'],
  [3, 48, 'low'],
  [3, 60, 'high'],
);

// Every figure below is counted by hand.
describe('accuracyOf', () => {
  it('is 1 throughout for the truth by other names', () => {
    const found = accuracyOf(two, ['x', 'y', 'x', 'y', 'x', 'y', 'x', 'y']);
    expect(found).toMatchObject({ precision: 1, recall: 1, f1: 1, right: 1, innerF1: null, foundLines: 2 });
  });

  it('finds four of six links and half of the notes where two voices change places half way', () => {
    const found = accuracyOf(two, ['x', 'y', 'x', 'y', 'y', 'x', 'y', 'x']);
    expect(found).toMatchObject({ precision: 4 / 6, recall: 4 / 6, right: 0.5, trueLines: 2, foundLines: 2 });
    expect(found.f1).toBeCloseTo(4 / 6, 12);
  });

  it('skips a note without a label: its neighbours are linked, and it is not right', () => {
    const labels = ['x', 'y', 'x', null, 'x', 'y', 'x', 'y'];
    const found = accuracyOf(two, labels);
    expect(found).toMatchObject({ precision: 4 / 5, recall: 4 / 6, right: 7 / 8, foundLines: 2 });
    expect(rightNotes(two, labels).indexOf(false)).toBe(3);
  });

  it('links each note of a chord with each of the next moment', () => {
    const chord = pieceOf([0, 48, 'one'], [0, 60, 'one'], [1, 50, 'one'], [2, 52, 'one'], [2, 57, 'one']);
    expect(accuracyOf(chord, ['x', 'x', 'x', 'x', 'x'])).toMatchObject({ f1: 1, right: 1 });
    // True: 0–2, 1–2, 2–3, 2–4. Found: 0–2, 2–3 on x; 1–4 on y.
    expect(accuracyOf(chord, ['x', 'y', 'x', 'x', 'y'])).toMatchObject({
      precision: 2 / 3,
      recall: 2 / 4,
      right: 3 / 5,
    });
  });

  it('does not mind the order in which notes are given', () => {
    const order = [5, 0, 7, 2, 1, 6, 3, 4];
    const shuffled = { ...two, notes: order.map((index) => two.notes[index]!) };
    const labels = ['x', 'y', 'x', 'y', 'y', 'x', 'x', 'y'];
    expect(
      accuracyOf(
        shuffled,
        order.map((index) => labels[index]!),
      ),
    ).toEqual(accuracyOf(two, labels));
  });

  it('looks at the inner voices by themselves', () => {
    const three = pieceOf(
      [0, 72, 'top'],
      [0, 60, 'mid'],
      [0, 48, 'low'],
      [1, 72, 'top'],
      [1, 60, 'mid'],
      [1, 48, 'low'],
      [2, 72, 'top'],
      [2, 60, 'mid'],
      [2, 48, 'low'],
    );
    const outerSwapped = ['t', 'm', 'b', 't', 'm', 'b', 'b', 'm', 't'];
    expect(accuracyOf(three, outerSwapped)).toMatchObject({ innerF1: 1, right: 7 / 9 });
    // The middle loses its last note to the top: one of its two links is found, none is false.
    const middleLost = ['t', 'm', 'b', 't', 'm', 'b', 't', 't', 'b'];
    expect(accuracyOf(three, middleLost).innerF1).toBeCloseTo(2 / 3, 12);
  });

  it('counts nothing wrong where there is nothing', () => {
    expect(accuracyOf(pieceOf(), [])).toMatchObject({ f1: 1, right: 1, foundLines: 0 });
    expect(
      agreementOf(
        two.notes,
        ['a', 'a', null, null, null, null, null, null],
        two.notes.map(() => null),
      ),
    ).toEqual({
      precision: 1,
      recall: 1,
      f1: 1,
    });
  });
});
