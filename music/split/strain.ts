import { gapStepsPerQuarter } from './prices.ts';
import type { UnitTable } from './units.ts';

/** What makes a place hard to be sure about. **Shape** one entry per unit in every column. */
export interface Strain {
  /** Semitones to the nearest unit of another line, now or within the last two bars or so; 12 at most. */
  readonly nearest: Uint8Array;
  /** Rest of the line before the unit. **Units** quarter notes, 8 at most; 4 where the line begins. */
  readonly rest: Float64Array;
  /** 1 where the line has several units at once. */
  readonly inChord: Uint8Array;
  /** 1 where more units begin at once than there are lines. */
  readonly isCrowded: Uint8Array;
}

const farthest = 12;
const longestRest = 8;
const restAtEdge = 4;
const staleQuarters = 8;

function emptyStrain(unitCount: number): Strain {
  return {
    nearest: new Uint8Array(unitCount).fill(farthest),
    rest: new Float64Array(unitCount).fill(restAtEdge),
    inChord: new Uint8Array(unitCount),
    isCrowded: new Uint8Array(unitCount),
  };
}

function restBetween(units: UnitTable, before: number, unit: number, ticksPerQuarter: number): number {
  const ticks = Math.max(0, (units.onset[unit] as number) - (units.end[before] as number));
  return Math.min(longestRest, Math.round((ticks * gapStepsPerQuarter) / ticksPerQuarter) / gapStepsPerQuarter);
}

function noteNearness(strain: Strain, units: UnitTable, other: number, unit: number, ticksPerQuarter: number): void {
  if ((units.onset[unit] as number) - (units.end[other] as number) > staleQuarters * ticksPerQuarter) return;
  const distance = Math.abs((units.top[other] as number) - (units.top[unit] as number));
  strain.nearest[unit] = Math.min(strain.nearest[unit] as number, distance);
}

/** The strain of every unit in an answer. */
export function strainOf(units: UnitTable, chosen: Uint8Array, lineCount: number, ticksPerQuarter: number): Strain {
  const strain = emptyStrain(units.unitCount);
  const last = new Int32Array(lineCount).fill(-1);
  const momentCount = units.momentStart.length - 1;
  for (let moment = 0; moment < momentCount; moment++) {
    const from = units.momentStart[moment] as number;
    const to = units.momentStart[moment + 1] as number;
    const now = new Int32Array(last);
    for (let unit = from; unit < to; unit++) now[chosen[unit] as number] = unit;
    for (let unit = from; unit < to; unit++) {
      const line = chosen[unit] as number;
      strain.isCrowded[unit] = to - from > lineCount ? 1 : 0;
      if (last[line] !== -1) strain.rest[unit] = restBetween(units, last[line] as number, unit, ticksPerQuarter);
      for (let other = 0; other < lineCount; other++)
        if (other !== line && now[other] !== -1)
          noteNearness(strain, units, now[other] as number, unit, ticksPerQuarter);
      for (let mate = from; mate < to; mate++) if (mate !== unit && chosen[mate] === line) strain.inChord[unit] = 1;
    }
    last.set(now);
  }
  return strain;
}
