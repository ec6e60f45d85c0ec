import type { UnitTable } from './units.ts';

/** Where every line of an answer sounds at once, so that their order leaves no doubt about which is which. */
export interface Fullness {
  /** Share of the moments at which every line sounds. */
  readonly share: number;
  /** How far each unit is from such a moment, before or after. **Shape** one entry per unit. **Units** quarter notes, 32 at most. */
  readonly away: Float64Array;
}

const farthestQuarters = 32;

function fullMoments(units: UnitTable, lines: Uint8Array, lineCount: number): Uint8Array {
  const momentCount = units.momentStart.length - 1;
  const isFull = new Uint8Array(momentCount);
  const soundsUntil = new Float64Array(lineCount).fill(-Infinity);
  for (let moment = 0; moment < momentCount; moment++) {
    const from = units.momentStart[moment] as number;
    const to = units.momentStart[moment + 1] as number;
    for (let unit = from; unit < to; unit++) {
      const line = lines[unit] as number;
      soundsUntil[line] = Math.max(soundsUntil[line] as number, units.end[unit] as number);
    }
    isFull[moment] = soundsUntil.every((until) => until > (units.onset[from] as number)) ? 1 : 0;
  }
  return isFull;
}

/** The fullness of an answer. */
export function fullnessOf(
  units: UnitTable,
  lines: Uint8Array,
  { lineCount, ticksPerQuarter }: { readonly lineCount: number; readonly ticksPerQuarter: number },
): Fullness {
  const isFull = fullMoments(units, lines, lineCount);
  const momentCount = isFull.length;
  const away = new Float64Array(lines.length).fill(farthestQuarters);
  for (const step of [1, -1]) {
    let lastFull = -step * Infinity;
    for (let moment = step === 1 ? 0 : momentCount - 1; moment >= 0 && moment < momentCount; moment += step) {
      const from = units.momentStart[moment] as number;
      const now = units.onset[from] as number;
      if (isFull[moment] === 1) lastFull = now;
      const distance = Math.min(farthestQuarters, Math.abs(now - lastFull) / ticksPerQuarter);
      for (let unit = from; unit < (units.momentStart[moment + 1] as number); unit++)
        away[unit] = Math.min(away[unit] as number, distance);
    }
  }
  const full = isFull.reduce((sum, is) => sum + is, 0);
  return { share: momentCount === 0 ? 1 : full / momentCount, away };
}
