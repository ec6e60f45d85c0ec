import { divisions } from './meter.ts';
import type { Moment } from './moments.ts';
import type { TextLine } from './text-line.ts';

/** A value that stands above or below the tablature. **Units** divisions. */
export interface RhythmSign {
  readonly column: number;
  readonly length: number;
  readonly isTriplet: boolean;
}

/** A value and the moment that it belongs to, or a rest where no moment stands. */
export interface RhythmStep {
  readonly moment: Moment | null;
  readonly column: number;
  readonly length: number;
  readonly isTriplet: boolean;
}

const quarter = divisions;
/** **Source** common practice, no source: the first letters of the values' names. */
const letterLengths: Readonly<Record<string, number>> = {
  w: 4 * quarter,
  h: 2 * quarter,
  q: quarter,
  e: quarter / 2,
  s: quarter / 4,
  t: quarter / 8,
};

const dotted = (length: number, dots: number): number =>
  dots === 0 ? length : dots === 1 ? (length * 3) / 2 : (length * 7) / 4;

/** The values that a line of rhythm letters tells, or null where it is no such line. */
export function letterSigns({ text }: TextLine): RhythmSign[] | null {
  if (!/^[\s|whqestWHQEST.3-]+$/.test(text) || !/[whqestWHQEST]/.test(text)) return null;
  return [...text.matchAll(/([whqestWHQEST])(3?)(\.{0,2})/g)].map((match) => {
    const plain = dotted(letterLengths[(match[1] ?? 'q').toLowerCase()] ?? quarter, (match[3] ?? '').length);
    const isTriplet = match[2] === '3';
    return { column: match.index, length: isTriplet ? (plain * 2) / 3 : plain, isTriplet };
  });
}

/** By how many a quarter is divided by so many beams. */
const beamDivisors = [1, 2, 4, 8];

const isStemLine = ({ text }: TextLine): boolean => /^[\s|_=.'3^-]+$/.test(text) && text.includes('|');

/** The lines of stems and beams next to a system, nearest first, that belong together. */
export function stemLines(lines: readonly TextLine[]): TextLine[] {
  const end = lines.findIndex((line) => !isStemLine(line));
  return lines.slice(0, end < 0 ? lines.length : end);
}

/** What beams between two stems say: how many there are, and whether a 3 stands among them. */
function beamsBetween(lines: readonly TextLine[], from: number, to: number): { beams: number; isTriplet: boolean } {
  let beams = 0;
  let isTriplet = false;
  for (const { text } of lines) {
    const gap = text.slice(from + 1, to);
    if (gap.length === 0 || !/^[_=3-]+$/.test(gap) || gap === '3') continue;
    beams += gap.includes('=') ? 2 : 1;
    isTriplet ||= gap.includes('3');
  }
  return { beams, isTriplet };
}

/** The values that stems and beams tell: a stem is a quarter, each beam halves it, a 3 in the beam makes it a triplet. */
export function stemSigns(lines: readonly TextLine[]): RhythmSign[] {
  const columns = [...new Set(lines.flatMap(({ text }) => [...text.matchAll(/\|/g)].map(({ index }) => index)))].sort(
    (a, b) => a - b,
  );
  const gaps = columns.slice(0, -1).map((column, index) => beamsBetween(lines, column, columns[index + 1] ?? column));
  return columns.map((column, index) => {
    const around = [gaps[index - 1], gaps[index]].filter((gap) => gap !== undefined);
    const beams = Math.max(0, ...around.map((gap) => gap.beams));
    const isTriplet = around.some((gap) => gap.isTriplet);
    const hasDot = lines.some(({ text }) => text.charAt(column + 1) === '.');
    const plain = dotted(quarter / (beamDivisors[Math.min(3, beams)] ?? 1), hasDot ? 1 : 0);
    return { column, length: isTriplet ? (plain * 2) / 3 : plain, isTriplet };
  });
}

/** Where the moment of a sign is looked for: under it, then beside it. */
const nearby = [0, -1, 1];

/** The signs with the moments under or over them. */
export function stepsOf(signs: readonly RhythmSign[], moments: readonly Moment[]): RhythmStep[] {
  const free = new Map(moments.map((moment) => [moment.textColumn, moment]));
  return signs.map(({ column, length, isTriplet }) => {
    const at = nearby.map((distance) => column + distance).find((place) => free.has(place)) ?? -1;
    const moment = free.get(at) ?? null;
    free.delete(at);
    return { moment, column, length, isTriplet };
  });
}

/** Whether so many steps stand at moments that the line tells a rhythm: three of four signs, and half of the moments. */
export function tellsRhythm(steps: readonly RhythmStep[], moments: readonly Moment[]): boolean {
  const placed = steps.filter(({ moment }) => moment !== null).length;
  return placed > 0 && placed * 4 >= steps.length * 3 && placed * 2 >= moments.length;
}
