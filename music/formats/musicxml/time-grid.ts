import { lcm } from '../../basis/fraction.ts';
import { limits } from '../limits.ts';
import { childrenOf, childText, type XmlElement } from '../xml/tree.ts';

/** The grid of time of a whole score. */
export interface TimeGrid {
  readonly ticksPerQuarter: number;
  /** False where the file's divisions have no common multiple that is small enough, so that lengths were rounded. */
  readonly isExact: boolean;
}

const coarseTicksPerQuarter = 10_080;

function divisionsIn(root: XmlElement): Set<number> {
  const found = new Set<number>();
  for (const part of childrenOf(root, 'part')) {
    for (const measure of childrenOf(part, 'measure')) {
      for (const attributes of childrenOf(measure, 'attributes')) {
        const text = childText(attributes, 'divisions');
        if (text !== '') found.add(Number(text));
      }
    }
  }
  return found;
}

/** The grid that holds every length of a partwise score, exactly where that can be. */
export function timeGridOf(root: XmlElement): TimeGrid {
  let ticksPerQuarter = 1;
  for (const divisions of divisionsIn(root)) {
    if (!isDivisions(divisions)) continue;
    const common = Number.isInteger(divisions) ? lcm(ticksPerQuarter, divisions) : Infinity;
    if (common > limits.ticksPerQuarter) return { ticksPerQuarter: coarseTicksPerQuarter, isExact: false };
    ticksPerQuarter = common;
  }
  return { ticksPerQuarter, isExact: true };
}

/** Whether a number can be a file's divisions of a quarter note. */
export const isDivisions = (divisions: number): boolean => Number.isFinite(divisions) && divisions > 0;
