import { describe, expect, it } from 'vitest';
import { chord, hit, line, meter, note, rest, ticksPerQuarter, voices } from '../../../tests/support/score-builders.ts';
import { allOn, splitOf } from '../../../tests/support/split-builders.ts';
import { strandsOf } from './strands.ts';

const quarters = (ticks: number) => ticks / ticksPerQuarter;
const whole = (bars: number) => ({ startTicks: 0, endTicks: bars * 4 * ticksPerQuarter });
const even = () => 0.5;

describe('strands', () => {
  it('lasts until the next note of the line, though written shorter', () => {
    const score = voices(meter(4, 4), [note('C4', 1), note('E4', 1), note('G4', 2)]);
    const [melody] = strandsOf(score, splitOf({ melody: ['n1', 'n3'] }), whole(1), even);
    expect(melody!.notes.map((each) => [quarters(each.startTicks), quarters(each.endTicks)])).toEqual([
      [0, 2],
      [2, 4],
    ]);
  });

  it('ends at a rest of the note’s own voice', () => {
    const score = line(meter(4, 4), note('C4', 1), rest(1), note('G4', 2));
    const [melody] = strandsOf(score, allOn(score), whole(1), even);
    expect(melody!.notes.map((each) => quarters(each.endTicks))).toEqual([1, 4]);
  });

  it('ends after two bars at most where nothing follows', () => {
    const score = voices(meter(4, 4), [note('C4', 1), ...Array.from({ length: 19 }, () => note('E4', 1))]);
    const [melody] = strandsOf(score, splitOf({ melody: ['n1'] }), whole(5), even);
    expect(quarters(melody!.notes[0]!.endTicks)).toBe(8);
  });

  it('follows the highest of notes struck together, and the lowest for a bass', () => {
    const score = line(meter(4, 4), chord(['C3', 'G3', 'E4'], 4));
    const [melody] = strandsOf(score, allOn(score, 'melody'), whole(1), even);
    const [bass] = strandsOf(score, allOn(score, 'bass'), whole(1), even);
    expect([melody!.notes[0]!.name, bass!.notes[0]!.name]).toEqual(['E', 'C']);
    expect([melody!.chordNotes.length, bass!.chordNotes.length]).toEqual([2, 2]);
  });

  it('keeps every marked note that begins inside, once on each of its lines', () => {
    const score = voices(meter(4, 4), [note('C5', 2), chord(['D5', 'B4'], 2)], [rest(1), hit(1), note('E3', 2)]);
    const split = splitOf({ melody: ['n1', 'n3', 'n4'], bass: ['n5', 'n1'], taps: ['n2'] });
    const shown = strandsOf(score, split, whole(1), even).map((strand) =>
      [...strand.notes, ...strand.chordNotes, ...strand.hits].map((each) => each.note).sort(),
    );
    expect(shown).toEqual([['n1', 'n3', 'n4'], ['n1', 'n5'], ['n2']]);
  });

  it('leaves out what begins before the excerpt or after it', () => {
    const score = line(meter(4, 4), note('C4', 4), note('D4', 4), note('E4', 4));
    const [melody] = strandsOf(
      score,
      allOn(score),
      { startTicks: 4 * ticksPerQuarter, endTicks: 8 * ticksPerQuarter },
      even,
    );
    expect(melody!.notes.map((each) => each.name)).toEqual(['D']);
  });
});
