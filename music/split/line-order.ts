import type { UnitTable } from './units.ts';

/** How far a unit looks for what the other lines do. **Units** units to each side. */
const reach = 12;

/** How many of the lines in `order`, from the highest down, a further line lies below, judged by what is near its marked units. */
function placeAmong(
  units: UnitTable,
  pins: Int8Array,
  lines: Uint8Array,
  label: number,
  order: readonly number[],
): number {
  const above = new Int32Array(order.length);
  const seen = new Int32Array(order.length);
  for (let unit = 0; unit < units.unitCount; unit++) {
    if (pins[unit] !== label) continue;
    const to = Math.min(units.unitCount, unit + reach + 1);
    for (let near = Math.max(0, unit - reach); near < to; near++) {
      const place = order.indexOf(pins[near] === -1 ? (lines[near] as number) : (pins[near] as number));
      if (place === -1) continue;
      const distance = (units.top[near] as number) - (units.top[unit] as number);
      seen[place] = (seen[place] as number) + 1;
      above[place] = (above[place] as number) + Math.sign(distance);
    }
  }
  let best = 0;
  let sum = 0;
  let most = 0;
  for (let place = 0; place < order.length; place++) {
    sum += (above[place] as number) / Math.max(1, seen[place] as number);
    if (sum > most) [most, best] = [sum, place + 1];
  }
  return best;
}

/** The labels from the highest line down: those of the unaided answer as they are, each that only marks know where its notes lie among them. */
export function orderOfLines(
  units: UnitTable,
  pins: Int8Array,
  lines: Uint8Array,
  foundCount: number,
  lineCount: number,
): readonly number[] {
  const order = Array.from({ length: foundCount }, (_, label) => label);
  for (let label = foundCount; label < lineCount; label++)
    order.splice(placeAmong(units, pins, lines, label, order), 0, label);
  return order;
}
