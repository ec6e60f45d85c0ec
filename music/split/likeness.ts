import type { UnitTable } from './units.ts';

/** How far around a moment a situation reaches, from the most telling likeness to the least. **Units** moments to each side; −1 looks at the shape of the moment alone. */
export const likenessReaches = [4, 2, 1, 0, -1] as const;

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

function shapeKey(units: UnitTable, moment: number): number {
  const from = units.momentStart[moment] as number;
  const to = units.momentStart[moment + 1] as number;
  let key = to - from;
  for (let unit = from + 1; unit < to; unit++) {
    const interval = (units.top[unit - 1] as number) - (units.top[unit] as number);
    key = mixed(key, interval > 12 ? 3 : interval > 9 ? 2 : interval > 0 ? 1 : 0);
    key = mixed(key, Math.sign((units.end[unit] as number) - (units.end[unit - 1] as number)) + 1);
  }
  return key;
}

/**
 * A number for the situation that each unit stands in; equal for the same music at another time and, transposed, at another pitch.
 * **Shape** one entry per unit.
 */
export function situationsOf(units: UnitTable, reach: number): Int32Array {
  const momentCount = units.momentStart.length - 1;
  const keys = new Int32Array(units.unitCount);
  for (let moment = 0; moment < momentCount; moment++) {
    const from = units.momentStart[moment] as number;
    const to = units.momentStart[moment + 1] as number;
    let key = 17;
    if (reach < 0) key = shapeKey(units, moment);
    for (let near = moment - reach; reach >= 0 && near <= moment + reach; near++)
      key =
        near < 0 || near >= momentCount
          ? mixed(key, -1)
          : momentKey(units, key, near, units.top[from] as number, units.onset[from] as number);
    for (let unit = from; unit < to; unit++) keys[unit] = mixed(key, unit - from);
  }
  return keys;
}
