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
  readonly anchorRest: number;
  /** **Units** 1/256 quarter note. */
  readonly linger: number;
  /** What a line's rest costs, by its length in steps. */
  readonly gapByStep: Int32Array;
  /** What is left of the pitch memory after a rest, of 1024. */
  readonly memoryByStep: Int32Array;
  /** How far a rest brings the price of anchors from `anchor` to `anchorRest`, of 1024. */
  readonly awayByStep: Int32Array;
  /** The note value of a stretch of time, by its length in steps: 4 × log2 of the quarters, rounded. */
  readonly valueByStep: Int32Array;
}

/** The prices of a set of weights. */
export function pricesOf(weights: Weights): Prices {
  const price = (semitones: number): number => Math.round(semitones * costPerSemitone);
  const gapByStep = new Int32Array(mostGapSteps + 1);
  const valueByStep = new Int32Array(mostGapSteps + 1);
  const awayByStep = new Int32Array(mostGapSteps + 1);
  const memoryByStep = new Int32Array(mostGapSteps + 1).fill(wholeShare);
  for (let step = 1; step <= mostGapSteps; step++) {
    const quarters = step / gapStepsPerQuarter;
    gapByStep[step] = price(weights.resume + weights.gap * exactLog2(1 + quarters));
    memoryByStep[step] = Math.round(wholeShare * exactExp(-weights.decay * quarters));
    valueByStep[step] = Math.round(4 * exactLog2(quarters));
    awayByStep[step] = Math.round(wholeShare * (1 - exactExp(-weights.anchorRise * quarters)));
  }
  return {
    leapCap: price(weights.leapCap),
    register: price(weights.register),
    newLine: price(weights.newLine),
    crossing: price(weights.crossing),
    order: price(weights.order),
    overlap: price(weights.overlap),
    chord: price(weights.chord),
    chordSpan: price(weights.chordSpan),
    chordUneven: price(weights.chordUneven),
    rhythm: price(weights.rhythm),
    anchor: price(weights.anchor),
    anchorRest: price(weights.anchorRest),
    linger: price(weights.linger),
    gapByStep,
    memoryByStep,
    awayByStep,
    valueByStep,
  };
}

/** A stretch of time in the steps that gaps are told apart by, at least one. */
export const gapStepOf = (ticks: number, ticksPerQuarter: number): number =>
  Math.min(mostGapSteps, Math.max(1, Math.round((ticks * gapStepsPerQuarter) / ticksPerQuarter)));
