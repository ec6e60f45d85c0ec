import { bestPath } from './lattice.ts';
import { orderOfLines } from './line-order.ts';
import { followersOf, type Lesson } from './precedents.ts';
import type { Reading } from './reading.ts';
import { searchLines } from './search.ts';
import { mostLines } from './texture.ts';
import type { UnitTable } from './units.ts';
import type { SeparateOptions } from './voice-note.ts';
import { yieldingUnits } from './yielding.ts';

/** A reading with a person's marks in it and what follows from them. */
export interface Followed {
  /** The label of each unit. */
  readonly labels: Uint8Array;
  /** How sure each unit's label is, 0 to 1. */
  readonly certainty: Float64Array;
  /** The labels from the highest line down. */
  readonly order: readonly number[];
}

/** Lines of a piece hold chords where more notes than lines sound for this share of the time. */
const chordShare = 0.01;
/** How sure it is that a unit that made way for a mark was right to: set by hand, a little under what chorales showed. */
const yieldingCertainty = 0.9;

function unitsMarked({ table, context }: Reading, labelOf: (note: number) => number | undefined): Int8Array {
  const ofUnit = new Int8Array(context.units.unitCount).fill(-1);
  for (let index = 0; index < table.count; index++) {
    const label = labelOf(table.order[index] as number);
    if (label !== undefined && label >= 0 && label < mostLines)
      ofUnit[context.units.unitOfNote[index] as number] = label;
  }
  return ofUnit;
}

/** Whether two units of one moment were marked with one line. */
function marksMakeChords(units: UnitTable, pins: Int8Array): boolean {
  for (let unit = 1; unit < units.unitCount; unit++)
    for (let above = unit - 1; above >= 0 && units.onset[above] === units.onset[unit]; above--)
      if (pins[unit] !== -1 && pins[unit] === pins[above]) return true;
  return false;
}

/** The unit from which on nobody has looked yet: where the last run of marks began, a run being the marks of one line with none of its other notes between. */
function endOfReviewed(pins: Int8Array, standing: Uint8Array): number {
  let unit = pins.length - 1;
  while (unit >= 0 && pins[unit] === -1) unit--;
  const label = pins[unit];
  let start = Math.max(0, unit);
  for (; unit >= 0; unit--) {
    if (standing[unit] !== label) continue;
    if (pins[unit] === -1) break;
    start = unit;
  }
  return start;
}

/** The lines with `given` put in; where lines are single, what they have no room for is searched for anew, all else staying. */
function settled({ context }: Reading, before: Uint8Array, given: Int8Array, holdsChords: boolean): Uint8Array {
  const lines = before.map((line, unit) => (given[unit] === -1 ? line : (given[unit] as number)));
  if (holdsChords) return lines;
  const yields = yieldingUnits({ units: context.units, before, given });
  if (!yields.includes(1)) return lines;
  const tied = Int8Array.from(lines, (line, unit) => (yields[unit] === 1 ? -1 : line));
  return bestPath(searchLines(context, tied), context.units.momentStart);
}

function certaintyOf(reading: Reading, lesson: Lesson, last: Uint8Array, shares: Float64Array): Float64Array {
  return reading.certainty.map((unaided, unit) => {
    if (lesson.pins[unit] !== -1) return 1;
    if ((shares[unit] as number) > 0) return Math.round(1000 * (shares[unit] as number)) / 1000;
    return last[unit] === lesson.unaided[unit] ? unaided : yieldingCertainty;
  });
}

/** The marks and what stands now as places counted from the highest line, each line one place. */
interface Placed {
  readonly order: readonly number[];
  readonly pins: Int8Array;
  readonly unaided: Uint8Array;
  readonly before: Uint8Array;
}

function placed(reading: Reading, options: SeparateOptions): Placed {
  const { units, lineCount: foundCount } = reading.context;
  const pins = unitsMarked(reading, (note) => options.pins?.get(note));
  const present = unitsMarked(reading, (note) => options.present?.[note]);
  const before = reading.lines.map((line, unit) => (present[unit] === -1 ? line : (present[unit] as number)));
  let lineCount = foundCount;
  for (const label of [...pins, ...present]) lineCount = Math.max(lineCount, label + 1);
  const known = pins.map((pin, unit) =>
    pin === -1 && (before[unit] as number) >= foundCount ? (before[unit] as number) : pin,
  );
  const order = orderOfLines(units, known, before, foundCount, lineCount);
  const placeOf = order.map((_, label) => order.indexOf(label));
  return {
    order,
    pins: pins.map((pin) => (pin === -1 ? -1 : (placeOf[pin] as number))),
    unaided: reading.lines.map((line) => placeOf[line] as number),
    before: before.map((line) => placeOf[line] as number),
  };
}

/**
 * A reading with a person's marks put in: where lines are single, what they leave no room for makes way; then what stands in like places
 * follows. All else stays as it is. The same marks and the same present lines give the same answer, in whatever order they came.
 */
export function followMarks(reading: Reading, options: SeparateOptions): Followed {
  const { order, pins, unaided, before } = placed(reading, options);
  const { units, ticksPerQuarter } = reading.context;
  const wide: Reading = { ...reading, context: { ...reading.context, lineCount: order.length } };
  const holdsChords = (reading.texture.sounding[order.length + 1] ?? 0) >= chordShare || marksMakeChords(units, pins);
  const standing = settled(wide, before, pins, holdsChords);
  const reviewed = endOfReviewed(pins, standing);
  const lesson: Lesson = { units, ticksPerQuarter, unaided, standing, pins, reviewed, holdsChords };
  const given = pins.slice();
  const shares = new Float64Array(units.unitCount);
  for (const { unit, line, share } of followersOf(lesson)) {
    given[unit] = line;
    shares[unit] = share;
  }
  const last = settled(wide, standing, given, holdsChords);
  return {
    labels: last.map((place) => order[place] as number),
    certainty: certaintyOf(wide, lesson, last, shares),
    order,
  };
}
