import type { AssignmentTable } from './assignments.ts';
import { beamWidth } from './hypotheses.ts';
import { edgesPerState, type Lattice } from './lattice.ts';
import { costPerSemitone } from './prices.ts';

/** A margin that stands for *no other way was worth keeping*. **Units** 1/256 semitone. */
export const widestMargin = 64 * costPerSemitone;

const far = 1e9;

function costsToGo(lattice: Lattice, moment: number, after: Float64Array, before: Float64Array): void {
  before.fill(far);
  for (let state = 0; state < (lattice.sizes[moment] as number); state++)
    for (let edge = 0; edge < edgesPerState; edge++) {
      const here = (moment * beamWidth + state) * edgesPerState + edge;
      const parent = lattice.parents[here] as number;
      if (parent === -1) break;
      const soFar = lattice.costs[((moment - 1) * beamWidth + parent) * edgesPerState] ?? 0;
      const whole = (lattice.costs[here] as number) - soFar + (after[state] as number);
      if (whole < (before[parent] as number)) before[parent] = whole;
    }
}

function noteMargins(lattice: Lattice, moment: number, toGo: Float64Array, chosen: Uint8Array, firstUnit: number, margins: Int32Array): void {
  const table = lattice.tables[moment] as AssignmentTable;
  for (let state = 0; state < (lattice.sizes[moment] as number); state++)
    for (let edge = 0; edge < edgesPerState; edge++) {
      const here = (moment * beamWidth + state) * edgesPerState + edge;
      if (lattice.parents[here] === -1) break;
      const whole = (lattice.costs[here] as number) + (toGo[state] as number);
      const row = (lattice.rows[here] as number) * table.unitCount;
      for (let unit = 0; unit < table.unitCount; unit++)
        if (table.slots[row + unit] !== chosen[firstUnit + unit] && whole < (margins[firstUnit + unit] as number)) margins[firstUnit + unit] = whole;
    }
}

/**
 * How much dearer the cheapest kept way is that gives a unit another line than the chosen one: the minimum over whole paths through the
 * lattice, forwards and backwards. **Shape** one entry per unit. **Units** 1/256 semitone.
 */
export function marginsOf(lattice: Lattice, momentStart: Int32Array, chosen: Uint8Array): Int32Array {
  const margins = new Int32Array(chosen.length).fill(widestMargin);
  let toGo = new Float64Array(beamWidth);
  let before = new Float64Array(beamWidth);
  for (let moment = lattice.momentCount - 1; moment >= 0; moment--) {
    noteMargins(lattice, moment, toGo, chosen, momentStart[moment] as number, margins);
    costsToGo(lattice, moment, toGo, before);
    [toGo, before] = [before, toGo];
  }
  return margins;
}

/** The confidence that a margin stands for, 0 to 1, fitted to how often notes with such a margin were right. */
export function confidenceOf(margin: number): number {
  const semitones = Math.max(0, margin) / costPerSemitone;
  return Math.round(1000 * (0.55 + (0.44 * semitones) / (semitones + 4))) / 1000;
}
