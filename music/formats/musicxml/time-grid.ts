import { gcd, lcm } from '../../basis/fraction.ts';
import { limits } from '../limits.ts';
import { childrenOf, childText, type XmlElement } from '../xml/tree.ts';

/** The grid of time of a whole score. */
export interface TimeGrid {
  readonly ticksPerQuarter: number;
  /** False where the file's divisions have no common multiple that is small enough, so that lengths were rounded. */
  readonly isExact: boolean;
}

const coarseTicksPerQuarter = 10_080;

/** Longer decimals stand for thirds and the like, which no decimal says exactly. */
const largestDenominator = 128;
const tooFine = limits.ticksPerQuarter + 1;

/** What a fraction of a division has for a denominator: 4 for `0.75`, 1 for whole numbers. **Source** MusicXML 4.0, duration: a decimal number. */
function denominatorOf(duration: string): number {
  const decimals = /^\d*\.(\d{1,9}?)0*$/.exec(duration)?.[1];
  if (decimals === undefined) return 1;
  const tenths = 10 ** decimals.length;
  return tenths / gcd(Number(decimals), tenths);
}

/** The parts of a quarter note that a part counts in: its divisions, finer where durations are fractions of them. */
function addDivisionsOf(part: XmlElement, found: Set<number>): void {
  let divisions = 1;
  for (const measure of childrenOf(part, 'measure')) {
    for (const node of measure.children) {
      if (typeof node === 'string' || node.kind !== 'element') continue;
      if (node.name === 'attributes') {
        const text = childText(node, 'divisions');
        if (text === '') continue;
        divisions = Number(text);
        found.add(divisions);
      } else if (node.name === 'note' || node.name === 'backup' || node.name === 'forward') {
        const duration = childText(node, 'duration');
        if (!duration.includes('.')) continue;
        const denominator = denominatorOf(duration);
        found.add(denominator > largestDenominator ? tooFine : divisions * denominator);
      }
    }
  }
}

/** The grid that holds every length of a partwise score, exactly where that can be. */
export function timeGridOf(root: XmlElement): TimeGrid {
  const found = new Set<number>();
  for (const part of childrenOf(root, 'part')) addDivisionsOf(part, found);
  let ticksPerQuarter = 1;
  for (const divisions of found) {
    if (!isDivisions(divisions)) continue;
    const common = Number.isInteger(divisions) ? lcm(ticksPerQuarter, divisions) : Infinity;
    if (common > limits.ticksPerQuarter) return { ticksPerQuarter: coarseTicksPerQuarter, isExact: false };
    ticksPerQuarter = common;
  }
  return { ticksPerQuarter, isExact: true };
}

/** Whether a number can be a file's divisions of a quarter note. */
export const isDivisions = (divisions: number): boolean => Number.isFinite(divisions) && divisions > 0;
