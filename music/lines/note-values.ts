import type { NoteValue } from '../score/written.ts';

/** The finest unit that plain values are counted in: a 256th note. **Units** units per quarter note. */
export const unitsPerQuarter = 64;

const types = [
  '256th',
  '128th',
  '64th',
  '32nd',
  '16th',
  'eighth',
  'quarter',
  'half',
  'whole',
  'breve',
  'long',
  'maxima',
] as const;

/** A dotted maxima. */
const longestUnits = 3072;

/** Whether a positive whole number is a power of two. */
export const isPowerOfTwo = (count: number): boolean => count > 0 && (count & (count - 1)) === 0;

/** The plain or once dotted value that lasts so many 256ths; null where none does. */
export const valueOfUnits = (units: number): NoteValue | null => values.get(units) ?? null;

function makeValue(units: number): NoteValue | null {
  const dots = isPowerOfTwo(units) ? 0 : units % 3 === 0 && units > 2 && isPowerOfTwo(units / 3) ? 1 : null;
  if (dots === null) return null;
  const type = types[31 - Math.clz32(dots === 0 ? units : (units / 3) * 2)];
  return type === undefined ? null : { type, dots, tuplet: null };
}

const values: ReadonlyMap<number, NoteValue> = new Map(
  Array.from({ length: longestUnits }, (_unused, index) => index + 1).flatMap((units) => {
    const value = makeValue(units);
    return value === null ? [] : [[units, value] as const];
  }),
);
