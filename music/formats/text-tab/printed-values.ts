import { beatLength, divisions, isCompound, type TabMeter } from './meter.ts';

/** One printed value of a note, chord or rest. **Units** divisions. */
export interface PrintedValue {
  readonly onset: number;
  readonly length: number;
  /** Null where no value says the length. */
  readonly type: string | null;
  readonly dots: number;
  readonly isTriplet: boolean;
}

type Value = readonly [length: number, type: string, dots: number];

/** **Source** MusicXML 4.0, note-type-value. */
const plainValues: readonly Value[] = [
  [16, 'whole', 0],
  [12, 'half', 1],
  [8, 'half', 0],
  [6, 'quarter', 1],
  [4, 'quarter', 0],
  [3, 'eighth', 1],
  [2, 'eighth', 0],
  [1.5, '16th', 1],
  [1, '16th', 0],
  [0.5, '32nd', 0],
  [0.25, '64th', 0],
  [0.125, '128th', 0],
].map(([sixteenths, type, dots]) => [((sixteenths as number) * divisions) / 4, type as string, dots as number]);

const tripletValues: readonly Value[] = plainValues.map(([length, type, dots]) => [(length * 2) / 3, type, dots]);

/** Whether a value may stand at a moment: on a beat, or within one beat. */
function fits(onset: number, length: number, meter: TabMeter): boolean {
  const beat = beatLength(meter);
  if (onset % beat !== 0) return (onset % beat) + length <= beat;
  return !isCompound(meter) || length <= beat || length === 2 * beat;
}

/** The values, to be tied to each other, that print a length from its onset; outside triplets, one that starts within a beat ends with it. */
export function printedValues(onset: number, length: number, meter: TabMeter, isTriplet: boolean): PrintedValue[] {
  const values = isTriplet ? tripletValues : plainValues;
  const printed: PrintedValue[] = [];
  let at = onset;
  while (at < onset + length) {
    const left = onset + length - at;
    const value = values.find(([size]) => size <= left && (isTriplet || fits(at, size, meter)));
    if (value === undefined) return [...printed, { onset: at, length: left, type: null, dots: 0, isTriplet: false }];
    printed.push({ onset: at, length: value[0], type: value[1], dots: value[2], isTriplet });
    at += value[0];
  }
  return printed;
}
