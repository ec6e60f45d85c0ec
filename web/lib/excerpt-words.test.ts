import { describe, expect, it } from 'vitest';
import { barId } from '../../music/index.ts';
import { line, meter, note, pickup } from '../../tests/support/score-builders.ts';
import { beatOfPlace, excerptWords } from './excerpt-words.ts';

const score = line(meter(4, 4), note('C4', 4), note('C4', 4), note('C4', 4));
const eighths = line(meter(6, 8), note('C4', 3), note('C4', 3));
const at = (bar: number, numerator: number, denominator = 1) => ({
  bar: barId(`b${bar}`),
  offset: { numerator, denominator },
});

describe('an excerpt in words', () => {
  it.each([
    [at(1, 0), at(1, 4), 'bar 1'],
    [at(1, 0), at(3, 4), 'bars 1–3'],
    [at(1, 3), at(3, 4), 'bar 1, beat 4, to the end of bar 3'],
    [at(2, 0), at(3, 2), 'bar 2, to bar 3, before beat 3'],
  ])('%#: %o to %o', (from, to, words) => expect(excerptWords(score, { from, to })).toBe(words));

  it('calls a pickup by its name', () => {
    const upbeat = line(pickup(meter(4, 4), 1), note('C4', 1), note('C4', 4));
    expect(excerptWords(upbeat, { from: at(1, 0), to: at(2, 4) })).toBe('the pickup and on to the end of bar 2');
  });

  it('counts beats in the unit of the meter', () => {
    expect(beatOfPlace(eighths, at(1, 3, 2))).toBe(4);
    expect(beatOfPlace(score, at(1, 3, 2))).toBe(2.5);
  });
});
