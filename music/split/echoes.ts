import type { UnitTable } from './units.ts';

function mixed(hash: number, value: number): number {
  const key = Math.imul(hash ^ value, 0x9e3779b1);
  return key ^ (key >>> 15);
}

function momentKey(units: UnitTable, hash: number, moment: number, originMidi: number, originTicks: number): number {
  let key = hash;
  const to = units.momentStart[moment + 1] as number;
  for (let unit = units.momentStart[moment] as number; unit < to; unit++) {
    key = mixed(key, (units.top[unit] as number) - originMidi + 512);
    key = mixed(key, (units.onset[unit] as number) - originTicks);
    key = mixed(key, (units.end[unit] as number) - (units.onset[unit] as number));
  }
  return mixed(key, -2);
}

/** Music with fewer pitches comes again everywhere and tells nothing. */
const fewestPitches = 3;

/** The key of music that tells nothing. */
export const noEcho = 0;

/**
 * A number for the music around each unit, from `before` moments before its own to `after` after it: equal where the same music comes again,
 * at the same pitch or transposed; `noEcho` where it holds too few pitches to be known again. **Shape** one entry per unit.
 */
export function echoesOf(units: UnitTable, before: number, after: number): Int32Array {
  const momentCount = units.momentStart.length - 1;
  const keys = new Int32Array(units.unitCount);
  for (let moment = 0; moment < momentCount; moment++) {
    const from = units.momentStart[moment] as number;
    const to = units.momentStart[moment + 1] as number;
    let key = 17;
    for (let near = moment - before; near <= moment + after; near++)
      key =
        near < 0 || near >= momentCount
          ? mixed(key, -1)
          : momentKey(units, key, near, units.top[from] as number, units.onset[from] as number);
    const first = units.momentStart[Math.max(0, moment - before)] as number;
    const end = units.momentStart[Math.min(momentCount, moment + after + 1)] as number;
    const isTelling = new Set(units.top.subarray(first, end)).size >= fewestPitches;
    for (let unit = from; unit < to; unit++) keys[unit] = isTelling ? mixed(key, unit - from) : noEcho;
  }
  return keys;
}
