import type { Meter } from '../../music/index.ts';
import { ticksPerQuarter } from '../form/piece.ts';

/** A stretch of a bar that one printed value can stand for. */
export interface PrintedValue {
  readonly onsetTicks: number;
  readonly lengthTicks: number;
  readonly type: 'whole' | 'half' | 'quarter' | 'eighth' | '16th' | '32nd';
  readonly dots: 0 | 1;
  readonly isTriplet: boolean;
}

interface Shape {
  readonly type: PrintedValue['type'];
  readonly dots: 0 | 1;
}

const types: readonly (readonly [PrintedValue['type'], number])[] = [
  ['whole', 4 * ticksPerQuarter],
  ['half', 2 * ticksPerQuarter],
  ['quarter', ticksPerQuarter],
  ['eighth', ticksPerQuarter / 2],
  ['16th', ticksPerQuarter / 4],
  ['32nd', ticksPerQuarter / 8],
];

function shapeOf(lengthTicks: number): Shape | null {
  for (const [type, ticks] of types) {
    if (lengthTicks === ticks) return { type, dots: 0 };
    if (lengthTicks === ticks * 1.5) return { type, dots: 1 };
  }
  return null;
}

/** **Units** ticks from one felt beat to the next: a dotted quarter in compound meters. */
export function beatTicksOf(meter: Meter): number {
  const unitTicks = (4 * ticksPerQuarter) / meter.beatUnit;
  const isCompound = meter.beatUnit >= 8 && (meter.beats[0] ?? 0) % 3 === 0;
  return isCompound ? unitTicks * 3 : unitTicks;
}

/** The strongest place of the meter strictly within a stretch, or null where it lies within one beat. */
function splitPlace(startTicks: number, endTicks: number, meter: Meter): number | null {
  const beatTicks = beatTicksOf(meter);
  const beatCount = ((meter.beats[0] ?? 1) * 4 * ticksPerQuarter) / meter.beatUnit / beatTicks;
  const half = (beatCount * beatTicks) / 2;
  if (beatCount % 2 === 0 && startTicks < half && half < endTicks) return half;
  const next = (Math.floor(startTicks / beatTicks) + 1) * beatTicks;
  return next < endTicks ? next : null;
}

/** Whether a note may stand there as one value although it covers a beat. */
function standsWhole(startTicks: number, lengthTicks: number, meter: Meter): boolean {
  if (shapeOf(lengthTicks) === null) return false;
  const beatTicks = beatTicksOf(meter);
  if (startTicks % beatTicks === 0) return lengthTicks <= 2 * beatTicks ? true : startTicks === 0;
  return startTicks % beatTicks === beatTicks / 2 && lengthTicks === beatTicks;
}

function crossesHalf(startTicks: number, endTicks: number, meter: Meter): boolean {
  const beatTicks = beatTicksOf(meter);
  const barTicks = ((meter.beats[0] ?? 1) * 4 * ticksPerQuarter) / meter.beatUnit;
  const half = barTicks / 2;
  return (barTicks / beatTicks) % 2 === 0 && startTicks < half && half < endTicks;
}

function tripletValue(startTicks: number, lengthTicks: number): PrintedValue | null {
  const shape = shapeOf(lengthTicks * 1.5);
  return shape === null ? null : { ...shape, onsetTicks: startTicks, lengthTicks, isTriplet: true };
}

/**
 * The values that print a stretch of a bar, in order, tied where there are several: none hides the middle of the bar
 * unless it begins with the bar, and none hides a beat unless it begins on one or fills the classic short–long–short.
 * **Units** ticks from the bar's start.
 */
export function printedValues(
  startTicks: number,
  lengthTicks: number,
  meter: Meter,
  tripletBeats: ReadonlySet<number>,
): PrintedValue[] {
  const beatTicks = beatTicksOf(meter);
  const endTicks = startTicks + lengthTicks;
  const beat = Math.floor(startTicks / beatTicks);
  const isWithinBeat = endTicks <= (beat + 1) * beatTicks;
  if (isWithinBeat && tripletBeats.has(beat)) {
    const triplet = tripletValue(startTicks, lengthTicks);
    if (triplet !== null) return [triplet];
  }
  const coversTriplet = [...tripletBeats].some(
    (index) => startTicks < (index + 1) * beatTicks && index * beatTicks < endTicks,
  );
  const isPlain = !coversTriplet || (startTicks % beatTicks === 0 && endTicks % beatTicks === 0);
  const mayStand =
    isWithinBeat ||
    (standsWhole(startTicks, lengthTicks, meter) && (startTicks === 0 || !crossesHalf(startTicks, endTicks, meter)));
  const shape = isPlain && mayStand ? shapeOf(lengthTicks) : null;
  if (shape !== null) return [{ ...shape, onsetTicks: startTicks, lengthTicks, isTriplet: false }];
  const place = splitPlace(startTicks, endTicks, meter) ?? halfWay(startTicks, endTicks);
  return [
    ...printedValues(startTicks, place - startTicks, meter, tripletBeats),
    ...printedValues(place, endTicks - place, meter, tripletBeats),
  ];
}

/** The largest plain value that fits from the start of a stretch within one beat. */
function halfWay(startTicks: number, endTicks: number): number {
  const fitting = types.find(([, ticks]) => ticks < endTicks - startTicks && startTicks % ticks === 0);
  if (fitting === undefined) throw new Error(`Heddle bug: no printed value fits ${endTicks - startTicks} ticks`);
  return startTicks + fitting[1];
}
