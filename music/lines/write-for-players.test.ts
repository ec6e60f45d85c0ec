import { describe, expect, it } from 'vitest';
import { excerptOfBars } from '../score/excerpt.ts';
import type { Score } from '../score/score.ts';
import { meter, note, voices } from '../../tests/support/score-builders.ts';
import { allOn, splitOf } from '../../tests/support/split-builders.ts';
import { fourVoices, stringQuartet } from './ensembles.ts';
import { writeForPlayers } from './write-for-players.ts';

const whole = (score: Score) => excerptOfBars(score, score.bars[0]!.id, score.bars.at(-1)!.id)!;
const four = voices(meter(4, 4), [note('C5', 4)], [note('G4', 4)], [note('E3', 4)], [note('C3', 4)]);

describe('lines for players', () => {
  it('are those that have notes; what is on none is told', () => {
    const split = splitOf({ melody: ['n1'], silent: [], bass: ['n4'] });
    const { value, losses } = writeForPlayers(four, split, whole(four), { lengths: 'written' });
    expect(value.staves.map(({ name }) => name)).toEqual(['melody', 'bass']);
    expect(losses).toEqual(['2 notes are on no line and were left out.']);
  });

  it('all rest where none has notes', () => {
    const split = splitOf({ melody: ['n1'], bass: ['n4'] });
    const nothing = { ...split, marks: new Map() };
    const { value } = writeForPlayers(four, nothing, whole(four), { lengths: 'written' });
    expect(value.staves.map(({ name }) => name)).toEqual(['melody', 'bass']);
  });

  // A violin's lowest string is G3, a viola's C3: common practice, no source.
  it('move by octaves to where their players reach, and that is told', () => {
    const split = splitOf({ melody: ['n1', 'n2'], middle: ['n3'], bass: ['n4'] });
    const options = { lengths: 'written', ensemble: stringQuartet } as const;
    const { value, losses } = writeForPlayers(four, split, whole(four), options);
    expect(losses).toEqual(['middle was moved an octave up, for the range of Violin II.']);
    expect(value.staves[1]!.bars[0]![0]!.heads[0]!.sound).toMatchObject({ pitch: { step: 'E', octave: 4 } });
  });

  it('tell what stays out of reach', () => {
    const wide = voices(meter(4, 4), [note('C6', 2), note('C3', 2)]);
    const options = { lengths: 'written', ensemble: fourVoices } as const;
    expect(writeForPlayers(wide, allOn(wide), whole(wide), options).losses).toEqual([
      'melody was moved an octave down, for the range of Soprano.',
      'One note of melody is out of reach for Soprano.',
    ]);
  });
});
