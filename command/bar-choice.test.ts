import { describe, expect, it } from 'vitest';
import { line, meter, rest } from '../tests/support/score-builders.ts';
import { chosenBars } from './bar-choice.ts';
import { CannotDo, WrongUse } from './failures.ts';

const labels = ['0', '1', '2', '3', '3', '4-a', 'X1', '10'];
const score = line(
  labels.map((label) => ({ meter: meter(4, 4), label })),
  ...labels.map(() => rest(4)),
);
const chosen = (text: string): readonly number[] => {
  const { first, last } = chosenBars(score, text);
  return [first.ordinal, last.ordinal];
};

function refusalOf(text: string): Error {
  try {
    chosenBars(score, text);
  } catch (error) {
    return error as Error;
  }
  throw new Error(`${text} was taken`);
}

describe('--bars', () => {
  it.each([
    ['1', [2, 2]],
    ['0-2', [1, 3]],
    ['2-10', [3, 8]],
    [' 1 - 2 ', [2, 3]],
    ['#4', [4, 4]],
    ['#4-#5', [4, 5]],
    ['1-#5', [2, 5]],
    ['X1', [7, 7]],
    ['4-a', [6, 6]],
    ['2-4-a', [3, 6]],
    ['4-a-10', [6, 8]],
  ])('%s means printed numbers, or places after #', (text, places) => {
    expect(chosen(text)).toEqual(places);
  });

  it.each([
    ['3', 'the printed number 3 stands on 2 bars; say which by its place, one of #4 and #5.'],
    ['1-3', 'the printed number 3 stands on 2 bars; say which by its place, one of #4 and #5.'],
    ['11', 'no bar has the printed number 11; the printed numbers go from 0 to 10.'],
    ['#9', 'there is no bar #9; the score has 8.'],
    ['#0', 'there is no bar #0; the score has 8.'],
    ['10-1', 'bar #2 comes before bar #8.'],
  ])('%s is refused: %s', (text, sentence) => {
    const error = refusalOf(text);
    expect(error).toBeInstanceOf(CannotDo);
    expect(error.message).toBe(`--bars ${text}: ${sentence} Nothing was written.`);
  });

  it.each(['', '  '])('“%s” is no choice of bars', (text) => {
    expect(refusalOf(text)).toBeInstanceOf(WrongUse);
  });
});
