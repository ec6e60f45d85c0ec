import { describe, expect, it } from 'vitest';
import { noteId } from '../basis/ids.ts';
import { chord, line, meter, note, rest, voices } from '../../tests/support/score-builders.ts';
import { splitOf } from '../../tests/support/split-builders.ts';
import { doubtsOf } from './doubts.ts';

const bar = meter(4, 4);

describe('what speaks against the line of a note', () => {
  it('another line whose last note is as near', () => {
    const score = line(bar, chord(['C5', 'E4'], 1), note('G4', 1), note('C5', 2));
    const split = splitOf({ melody: ['n1', 'n3', 'n4'], middle: ['n2'] });
    expect(doubtsOf(score, split, noteId('n3'))).toEqual({
      rival: 'middle',
      lineLastHeardIn: 'b1',
      leapSemitones: 5,
      together: 0,
    });
    expect(doubtsOf(score, split, noteId('n4'))?.rival).toBeNull();
  });

  it('where its line was heard last, and what begins together with it', () => {
    const score = voices(bar, [note('C5', 4), rest(4), chord(['D5', 'B4', 'G4'], 4)], [note('C3', 4), note('D3', 4)]);
    const split = splitOf({ melody: ['n1', 'n4', 'n5'], bass: ['n2', 'n3'], middle: ['n6'] });
    expect(doubtsOf(score, split, noteId('n4'))).toEqual({
      rival: null,
      lineLastHeardIn: 'b1',
      leapSemitones: 2,
      together: 1,
    });
  });

  it('a first note has nothing before it; a note that the score does not have has no doubts', () => {
    const score = line(bar, note('C5', 4));
    expect(doubtsOf(score, splitOf({ melody: ['n1'] }), noteId('n1'))).toEqual({
      rival: null,
      lineLastHeardIn: null,
      leapSemitones: null,
      together: 0,
    });
    expect(doubtsOf(score, splitOf({ melody: ['n1'] }), noteId('n9'))).toBeNull();
  });
});
