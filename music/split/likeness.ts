import { exactExp } from '../basis/exact-math.ts';
import { stillSounding } from './sounding.ts';
import type { UnitTable } from './units.ts';

/**
 * How each unit stands among its neighbours: its pitch, how many begin with it, its rank among them, its note value, its place in the
 * quarter note, how many still sound above and below; then for the next above and the next below the interval, whether they end together
 * and the line that the unaided answer gives them. **Shape** `columnCount` entries per unit.
 */
export type Situations = Int16Array;

const columnCount = 12;
/** Intervals to a neighbour of the same moment are told apart at these. **Units** semitones. */
const intervalEdges = [1, 5, 10, 15];
const noNeighbour = intervalEdges.length + 1;
const mostCounted = 4;
const phasesPerQuarter = 8;

/** A likeness halves with each step. */
const stepSize = 12;
/** What a difference in each column counts. **Units** 1/12 step, per unit of the column or for any difference. */
const price = { pitch: 4, count: 12, rank: 6, value: 2, phase: 6, held: 12, interval: 9, end: 12, line: 12 };
/** Units as unlike as this have nothing to do with each other. **Units** 1/12 step. */
const farthest = 5 * stepSize;

/** The likeness of two units that are alike in everything. */
export const fullLikeness = 4096;

const halvingRate = 0.6931471805599453;
const likenessAt = Int32Array.from({ length: farthest }, (_, distance) =>
  Math.round(fullLikeness * exactExp((-halvingRate * distance) / stepSize)),
);

const intervalClass = (semitones: number): number => intervalEdges.filter((edge) => semitones >= edge).length;

function besideOf(units: UnitTable, unaided: Uint8Array, unit: number, beside: number): readonly number[] {
  if (units.onset[beside] !== units.onset[unit]) return [noNeighbour, 2, -1];
  const [upper, lower] = beside < unit ? [beside, unit] : [unit, beside];
  const interval = (units.low[upper] as number) - (units.top[lower] as number);
  const end = Math.sign((units.end[unit] as number) - (units.end[beside] as number));
  return [intervalClass(interval), end, unaided[beside] as number];
}

function heldAround(units: UnitTable, active: readonly number[], unit: number): number {
  const above = active.filter((held) => (units.top[held] as number) > (units.top[unit] as number)).length;
  return Math.min(mostCounted, above) * (mostCounted + 1) + Math.min(mostCounted, active.length - above);
}

/** The situation of every unit. */
export function situationsOf(units: UnitTable, unaided: Uint8Array, ticksPerQuarter: number): Situations {
  const situations = new Int16Array(units.unitCount * columnCount);
  const momentCount = units.momentStart.length - 1;
  let active: number[] = [];
  for (let moment = 0; moment < momentCount; moment++) {
    const from = units.momentStart[moment] as number;
    const to = units.momentStart[moment + 1] as number;
    const now = units.onset[from] as number;
    active = stillSounding(active, units.end, now);
    const phase = Math.round(((now % ticksPerQuarter) * phasesPerQuarter) / ticksPerQuarter);
    for (let unit = from; unit < to; unit++) {
      const pitch = units.top[unit] as number;
      const own = [pitch, Math.min(mostCounted, to - from), unit - from, units.value[unit] as number, phase];
      situations.set([...own, heldAround(units, active, unit)], unit * columnCount);
      situations.set(besideOf(units, unaided, unit, unit - 1), unit * columnCount + 6);
      situations.set(besideOf(units, unaided, unit, unit + 1), unit * columnCount + 9);
    }
    for (let unit = from; unit < to; unit++) active.push(unit);
  }
  return situations;
}

const unless = (isSame: boolean, cost: number): number => (isSame ? 0 : cost);

/** How alike two units stand, from 0 for nothing in common to `fullLikeness`. */
export function likenessOf(situations: Situations, one: number, other: number): number {
  const a = one * columnCount;
  const b = other * columnCount;
  const apart = (column: number): number =>
    Math.abs((situations[a + column] as number) - (situations[b + column] as number));
  let distance = price.pitch * apart(0);
  if (distance >= farthest) return 0;
  distance += unless(apart(1) === 0, price.count) + unless(apart(2) === 0, price.rank) + price.value * apart(3);
  distance += unless(apart(4) === 0, price.phase) + unless(apart(5) === 0, price.held);
  for (let beside = 6; beside < columnCount && distance < farthest; beside += 3) {
    distance += price.interval * apart(beside) + unless(apart(beside + 1) === 0, price.end);
    distance += unless(apart(beside + 2) === 0, price.line);
  }
  return distance < farthest ? (likenessAt[distance] as number) : 0;
}
