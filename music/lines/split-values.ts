import type { MetricNode } from './meter-tree.ts';
import { valueOfUnits } from './note-values.ts';

/** A stretch within a meter. **Units** 256th notes. */
export interface Stretch {
  readonly startUnits: number;
  readonly endUnits: number;
}

type Fits = (stretch: Stretch, node: MetricNode) => boolean;

const lengthOf = ({ startUnits, endUnits }: Stretch): number => endUnits - startUnits;
const endOf = (node: MetricNode): number => node.startUnits + node.lengthUnits;
const isWhole = (stretch: Stretch, node: MetricNode): boolean =>
  stretch.startUnits === node.startUnits && stretch.endUnits === endOf(node);

const isEdge = (units: number, node: MetricNode): boolean =>
  units === endOf(node) || node.children().some((child) => child.startUnits === units);

/** Short, long, short: the plainest syncopation, read at a glance. */
function isCentred(stretch: Stretch, node: MetricNode): boolean {
  const quarter = node.lengthUnits / 4;
  return stretch.startUnits === node.startUnits + quarter && stretch.endUnits === endOf(node) - quarter;
}

function fitsHalves(stretch: Stretch, node: MetricNode): boolean {
  const startsHere = stretch.startUnits === node.startUnits;
  if (!node.isAboveBeat) return startsHere || stretch.endUnits === endOf(node) || isCentred(stretch, node);
  if (!node.isCompound) return startsHere || isCentred(stretch, node);
  const beats = node.children().flatMap((child) => (child.isAboveBeat ? child.children() : [child]));
  const onBeat = (units: number): boolean => units === endOf(node) || beats.some((beat) => beat.startUnits === units);
  return onBeat(stretch.startUnits) && onBeat(stretch.endUnits) && (startsHere || isCentred(stretch, node));
}

/** Whether one note value may stand across the inner edges of a node without hiding them. */
const noteFits: Fits = (stretch, node) => {
  if (isWhole(stretch, node)) return true;
  if (node.division === 'halves') return fitsHalves(stretch, node);
  if (node.division === 'thirds') return isEdge(stretch.startUnits, node);
  if (node.division === 'groups') return false;
  return isEdge(stretch.startUnits, node) && (!node.isCompound || isEdge(stretch.endUnits, node));
};

/** Rests stand for whole stretches only, dotted in compound time alone; the first two thirds of a compound beat may be one. */
const restFits: Fits = (stretch, node) => {
  if (isWhole(stretch, node)) return node.isCompound || valueOfUnits(node.lengthUnits)?.dots === 0;
  if (node.division !== 'thirds' || stretch.startUnits !== node.startUnits) return false;
  const [first] = node.children();
  return node.children().length === 3 && first !== undefined && lengthOf(stretch) === 2 * first.lengthUnits;
};

const childAround = (stretch: Stretch, node: MetricNode): MetricNode | undefined =>
  node.children().find((child) => stretch.startUnits >= child.startUnits && stretch.endUnits <= endOf(child));

function cutPlace(stretch: Stretch, node: MetricNode, fits: Fits): number {
  const inner = node
    .children()
    .map((child) => child.startUnits)
    .filter((units) => units > stretch.startUnits && units < stretch.endUnits);
  const first = inner[0] ?? stretch.endUnits;
  if (!isEdge(stretch.startUnits, node)) return first;
  const longest = inner.findLast((units) => {
    const head = { startUnits: stretch.startUnits, endUnits: units };
    return valueOfUnits(lengthOf(head)) !== null && fits(head, node);
  });
  return longest ?? first;
}

function pieces(stretch: Stretch, node: MetricNode, fits: Fits): readonly Stretch[] {
  if (lengthOf(stretch) <= 0) return [];
  const child = childAround(stretch, node);
  if (child !== undefined) return pieces(stretch, child, fits);
  const isPrintable = valueOfUnits(lengthOf(stretch)) !== null;
  if ((isPrintable && fits(stretch, node)) || node.children().length === 0) return [stretch];
  const cut = cutPlace(stretch, node, fits);
  const head = { startUnits: stretch.startUnits, endUnits: cut };
  return [...pieces(head, node, fits), ...pieces({ startUnits: cut, endUnits: stretch.endUnits }, node, fits)];
}

/** The values that a note is written in, to be tied: none hides a beat, but for whole beats from a stronger one on and the plainest syncopations. **Source** E. Gould, Behind Bars (2011), on grouping in the meter; from memory. */
export const noteStretches = (stretch: Stretch, node: MetricNode): readonly Stretch[] =>
  pieces(stretch, node, noteFits);

/** The rests that fill a gap: each a beat, a part of one or a whole half bar, none across a beat. **Source** E. Gould, Behind Bars (2011), on rests in the meter; from memory. */
export const restStretches = (stretch: Stretch, node: MetricNode): readonly Stretch[] =>
  pieces(stretch, node, restFits);
