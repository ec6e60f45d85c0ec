import { stillSounding } from './sounding.ts';
import type { UnitTable } from './units.ts';

/** The lines that were given to units, beside those that they had. **Shape** one entry per unit in every column. */
export interface Placement {
  readonly units: UnitTable;
  /** The line of each unit before. */
  readonly before: Uint8Array;
  /** The line of each unit that was given one, −1 elsewhere. */
  readonly given: Int8Array;
}

/**
 * The units that a single line has no room for once others were given to it: they sound with a given unit of the same line and may move.
 * **Shape** 1 for each unit that may move.
 */
export function yieldingUnits({ units, before, given }: Placement): Uint8Array {
  const yields = new Uint8Array(units.unitCount);
  const lineNow = (unit: number): number => (given[unit] === -1 ? (before[unit] as number) : (given[unit] as number));
  const momentCount = units.momentStart.length - 1;
  let active: number[] = [];
  for (let moment = 0; moment < momentCount; moment++) {
    const from = units.momentStart[moment] as number;
    const to = units.momentStart[moment + 1] as number;
    active = stillSounding(active, units.end, units.onset[from] as number);
    for (let unit = from; unit < to; unit++) {
      for (const other of active) {
        if (lineNow(unit) !== lineNow(other) || (given[unit] === -1 && given[other] === -1)) continue;
        if (given[unit] === -1) yields[unit] = 1;
        if (given[other] === -1) yields[other] = 1;
      }
      active.push(unit);
    }
  }
  return yields;
}
