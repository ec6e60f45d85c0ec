import type { UnitTable } from './units.ts';

/** What makes a place hard to be sure about. **Shape** one entry per unit in every column. */
export interface Strain {
  /** Semitones to the nearest unit of another line, now or within the last two bars or so; 12 at most. */
  readonly nearest: Uint8Array;
  /** 1 where the line has several units at once. */
  readonly inChord: Uint8Array;
}

const farthest = 12;
const staleQuarters = 8;

function noteNearness(strain: Strain, units: UnitTable, other: number, unit: number, ticksPerQuarter: number): void {
  if ((units.onset[unit] as number) - (units.end[other] as number) > staleQuarters * ticksPerQuarter) return;
  const distance = Math.abs((units.top[other] as number) - (units.top[unit] as number));
  strain.nearest[unit] = Math.min(strain.nearest[unit] as number, distance);
}

/** The strain of every unit in an answer. */
export function strainOf(
  units: UnitTable,
  lines: Uint8Array,
  { lineCount, ticksPerQuarter }: { readonly lineCount: number; readonly ticksPerQuarter: number },
): Strain {
  const strain = { nearest: new Uint8Array(units.unitCount).fill(farthest), inChord: new Uint8Array(units.unitCount) };
  const last = new Int32Array(lineCount).fill(-1);
  const momentCount = units.momentStart.length - 1;
  for (let moment = 0; moment < momentCount; moment++) {
    const from = units.momentStart[moment] as number;
    const to = units.momentStart[moment + 1] as number;
    for (let unit = from; unit < to; unit++) last[lines[unit] as number] = unit;
    for (let unit = from; unit < to; unit++) {
      const line = lines[unit] as number;
      for (let other = 0; other < lineCount; other++)
        if (other !== line && last[other] !== -1)
          noteNearness(strain, units, last[other] as number, unit, ticksPerQuarter);
      for (let mate = from; mate < to; mate++) if (mate !== unit && lines[mate] === line) strain.inChord[unit] = 1;
    }
  }
  return strain;
}
