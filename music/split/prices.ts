import { exactExp, exactLog2 } from '../basis/exact-math.ts';
import type { Weights } from './weights.data.ts';

/** How many units of cost a leap of one semitone is; costs are whole numbers so that every engine adds them alike. */
export const costPerSemitone = 256;
/** Gaps are told apart to this part of a quarter note. */
export const gapStepsPerQuarter = 8;
/** Longer gaps cost as much as this one. */
export const mostGapSteps = 64 * gapStepsPerQuarter;
/** A share of 1 in whole numbers. */
export const wholeShare = 1024;

/** The weights as whole numbers. **Units** 1/256 semitone. */
export interface Prices {
  readonly leapCap: number;
  readonly register: number;
  readonly newLine: number;
  readonly crossing: number;
  readonly order: number;
  readonly overlap: number;
  readonly chord: number;
  readonly chordSpan: number;
  readonly chordUneven: number;
  readonly rhythm: number;
  readonly anchor: number;
  /** What a line's rest costs, by its length in steps. */
  readonly gapByStep: Int32Array;
  /** What is left of the pitch memory after a rest, of 1024. */
  readonly memoryByStep: Int32Array;
}

/** The prices of a set of weights. */
export function pricesOf(weights: Weights): Prices {
  const price = (semitones: number): number => Math.round(semitones * costPerSemitone);
  const gapByStep = new Int32Array(mostGapSteps + 1);
  const memoryByStep = new Int32Array(mostGapSteps + 1).fill(wholeShare);
  for (let step = 1; step <= mostGapSteps; step++) {
    const quarters = step / gapStepsPerQuarter;
    gapByStep[step] = price(weights.resume + weights.gap * exactLog2(1 + quarters));
    memoryByStep[step] = Math.round(wholeShare * exactExp(-weights.decay * quarters));
  }
  const { leapCap, register, newLine, crossing, order, overlap, chord, chordSpan, chordUneven, rhythm, anchor } =
    weights;
  return {
    leapCap: price(leapCap),
    register: price(register),
    newLine: price(newLine),
    crossing: price(crossing),
    order: price(order),
    overlap: price(overlap),
    chord: price(chord),
    chordSpan: price(chordSpan),
    chordUneven: price(chordUneven),
    rhythm: price(rhythm),
    anchor: price(anchor),
    gapByStep,
    memoryByStep,
  };
}
