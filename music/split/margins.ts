import type { AssignmentTable } from './assignments.ts';
import { beamWidth } from './hypotheses.ts';
import { edgesPerState, type Lattice } from './lattice.ts';
import { costPerSemitone } from './prices.ts';
import type { UnitTable } from './units.ts';

/** A margin that stands for *no other way was worth keeping*. **Units** 1/256 semitone. */
const widestMargin = 64 * costPerSemitone;

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

/** Which unit is the like of each: the same pitch, onset and end; their lines may change places without a change in the music. −1 where it has none. */
function likesOf(units: UnitTable): Int32Array {
  const likes = new Int32Array(units.unitCount).fill(-1);
  for (let unit = 1; unit < units.unitCount; unit++) {
    const isLike =
      units.onset[unit] === units.onset[unit - 1] &&
      units.top[unit] === units.low[unit - 1] &&
      units.end[unit] === units.end[unit - 1];
    if (isLike && likes[unit - 1] === -1) [likes[unit], likes[unit - 1]] = [unit - 1, unit];
  }
  return likes;
}

interface Answer {
  readonly units: UnitTable;
  readonly chosen: Uint8Array;
  readonly likes: Int32Array;
}

function isOther({ chosen, likes }: Answer, table: AssignmentTable, row: number, first: number, unit: number): boolean {
  const line = table.slots[row + unit] as number;
  if (line === chosen[first + unit]) return false;
  const like = likes[first + unit] as number;
  return like === -1 || line !== chosen[like] || table.slots[row + like - first] !== chosen[first + unit];
}

function noteMargins(lattice: Lattice, moment: number, toGo: Float64Array, answer: Answer, margins: Int32Array): void {
  const table = lattice.tables[moment] as AssignmentTable;
  const first = answer.units.momentStart[moment] as number;
  for (let state = 0; state < (lattice.sizes[moment] as number); state++)
    for (let edge = 0; edge < edgesPerState; edge++) {
      const here = (moment * beamWidth + state) * edgesPerState + edge;
      if (lattice.parents[here] === -1) break;
      const whole = (lattice.costs[here] as number) + (toGo[state] as number);
      const row = (lattice.rows[here] as number) * table.unitCount;
      for (let unit = 0; unit < table.unitCount; unit++)
        if (whole < (margins[first + unit] as number) && isOther(answer, table, row, first, unit))
          margins[first + unit] = whole;
    }
}

/**
 * How much dearer the cheapest kept way is that gives a unit another line than the chosen one: the minimum over whole paths through the
 * lattice, forwards and backwards. **Shape** one entry per unit. **Units** 1/256 semitone.
 */
export function marginsOf(lattice: Lattice, units: UnitTable, chosen: Uint8Array): Int32Array {
  const answer = { units, chosen, likes: likesOf(units) };
  const margins = new Int32Array(chosen.length).fill(widestMargin);
  let toGo = new Float64Array(beamWidth);
  let before = new Float64Array(beamWidth);
  for (let moment = lattice.momentCount - 1; moment >= 0; moment--) {
    noteMargins(lattice, moment, toGo, answer, margins);
    costsToGo(lattice, moment, toGo, before);
    [toGo, before] = [before, toGo];
  }
  return margins;
}

/** The least margin of each unit and its neighbours on its line: a run is no surer than its ends. **Shape** one entry per unit. **Units** 1/256 semitone. */
export function leastOnLine(margins: Int32Array, lines: Uint8Array, lineCount: number): Int32Array {
  const least = Int32Array.from(margins);
  const last = new Int32Array(lineCount).fill(-1);
  for (let unit = 0; unit < margins.length; unit++) {
    const before = last[lines[unit] as number] as number;
    last[lines[unit] as number] = unit;
    if (before === -1) continue;
    least[unit] = Math.min(least[unit] as number, margins[before] as number);
    least[before] = Math.min(least[before] as number, margins[unit] as number);
  }
  return least;
}

/** How many moments before and after are looked at. */
const momentsAround = 2;

/** The least margin at each unit's moment and those around it. **Shape** one entry per unit. **Units** 1/256 semitone. */
export function leastAround(margins: Int32Array, units: UnitTable): Int32Array {
  const { momentStart } = units;
  const least = new Int32Array(margins.length);
  const momentCount = momentStart.length - 1;
  for (let moment = 0; moment < momentCount; moment++) {
    const from = momentStart[Math.max(0, moment - momentsAround)] as number;
    const to = momentStart[Math.min(momentCount, moment + momentsAround + 1)] as number;
    let lowest = widestMargin;
    for (let unit = from; unit < to; unit++) lowest = Math.min(lowest, margins[unit] as number);
    least.fill(lowest, momentStart[moment], momentStart[moment + 1]);
  }
  return least;
}
