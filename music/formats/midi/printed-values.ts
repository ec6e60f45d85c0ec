import { unitsPerQuarter } from './bar-map.ts';
import type { Pulse } from './pulses.ts';

/** A stretch of one bar that is one printed note or rest. **Units** the grid's, from the start of the piece. */
export interface Piece {
  readonly startUnits: number;
  readonly endUnits: number;
  readonly type: string | null;
  readonly dots: number;
  readonly tuplet: Tuplet | null;
}

/** `actual` notes in the time of `normal`; the bracket spans a pulse. */
export interface Tuplet {
  readonly actual: number;
  readonly normal: number;
}

/** A stretch between two moments. */
export interface Stretch {
  readonly startUnits: number;
  readonly endUnits: number;
}

const types = ['whole', 'half', 'quarter', 'eighth', '16th', '32nd', '64th', '128th', '256th'] as const;

/** The plain or once dotted value of a length, or null. */
export function valueOf(units: number): { readonly type: string; readonly dots: number } | null {
  for (const [index, type] of types.entries()) {
    const plain = (4 * unitsPerQuarter) / 2 ** index;
    if (Math.abs(units - plain) < 1e-6) return { type, dots: 0 };
    if (Math.abs(units - 1.5 * plain) < 1e-6) return { type, dots: 1 };
  }
  return null;
}

/** How a pulse divides: into so many items, each halved again and again; `tuplet` where that is not what its meter says. */
interface Division {
  readonly items: number;
  readonly tuplet: Tuplet | null;
  /** The finest place that it holds. */
  readonly finest: number;
}

const simpleDivisions: readonly Division[] = [
  { items: 1, tuplet: null, finest: 16 },
  { items: 3, tuplet: { actual: 3, normal: 2 }, finest: 48 },
  { items: 5, tuplet: { actual: 5, normal: 4 }, finest: 5 },
  { items: 7, tuplet: { actual: 7, normal: 4 }, finest: 7 },
];
const compoundDivisions: readonly Division[] = [
  { items: 3, tuplet: null, finest: 24 },
  { items: 2, tuplet: { actual: 2, normal: 3 }, finest: 8 },
];

/** The plainest division of a pulse that holds all these places; null where none does. */
function divisionFor(pulse: Pulse, edges: readonly number[]): Division | null {
  const holds = ({ finest }: Division): boolean =>
    edges.every((units) => Number.isInteger(((units - pulse.startUnits) * finest) / pulse.lengthUnits));
  return (pulse.isCompound ? compoundDivisions : simpleDivisions).find(holds) ?? null;
}

interface Node extends Stretch {
  readonly items: number;
}

function halves({ startUnits, endUnits, items }: Node): Node[] {
  const count = items > 1 ? items : 2;
  const step = (endUnits - startUnits) / count;
  return Array.from({ length: count }, (_, index) => ({
    startUnits: startUnits + index * step,
    endUnits: startUnits + (index + 1) * step,
    items: 1,
  }));
}

/** Cuts a stretch within a node so that no piece hides the node's inner edges, but for those that begin or end with it. */
function cut(stretch: Stretch, node: Node, factor: number): Piece[] {
  const length = stretch.endUnits - stretch.startUnits;
  if (length <= 0) return [];
  const value = valueOf(length * factor);
  const touches = stretch.startUnits === node.startUnits || stretch.endUnits === node.endUnits;
  if (value !== null && touches) return [{ ...stretch, ...value, tuplet: null }];
  const children = halves(node);
  if (!children.every((child) => Number.isInteger(child.startUnits)))
    return [{ ...stretch, type: null, dots: 0, tuplet: null }];
  return children.flatMap((child) =>
    cut(
      {
        startUnits: Math.max(stretch.startUnits, child.startUnits),
        endUnits: Math.min(stretch.endUnits, child.endUnits),
      },
      child,
      factor,
    ),
  );
}

function piecesInPulse(stretch: Stretch, pulse: Pulse, edges: readonly number[]): Piece[] {
  const division = divisionFor(pulse, edges);
  if (division === null) return [{ ...stretch, type: null, dots: 0, tuplet: null }];
  const { items, tuplet } = division;
  const factor = tuplet === null ? 1 : tuplet.actual / tuplet.normal;
  const node = { startUnits: pulse.startUnits, endUnits: pulse.startUnits + pulse.lengthUnits, items };
  return cut(stretch, node, factor).map((piece) => ({ ...piece, tuplet }));
}

const endOf = (pulse: Pulse): number => pulse.startUnits + pulse.lengthUnits;

/** Whether one value may cover so many pulses from this one: it starts at least as strongly as what it hides. **Source** common practice, no source. */
function mayCover(first: Pulse, count: number, pulseCount: number, isRest: boolean): boolean {
  if (count === 1) return true;
  const { place } = first;
  if (isRest) return count === 2 && place % 2 === 0 && pulseCount !== 3;
  if (count === 2) return place % 2 === 0 || pulseCount === 3;
  if (count === 3) return place === 0 || (pulseCount === 4 && place === 1);
  return place % count === 0;
}

/** The end of the longest value that begins with a pulse and ends with one, no later than a stretch's end. */
function longestRun(first: Pulse, bar: readonly Pulse[], endUnits: number, isRest: boolean): number | null {
  for (const last of bar.slice(first.place).toReversed()) {
    if (endOf(last) > endUnits) continue;
    const count = last.place - first.place + 1;
    const isEven = bar.slice(first.place, last.place + 1).every(({ lengthUnits }) => lengthUnits === first.lengthUnits);
    const isPrintable = valueOf(endOf(last) - first.startUnits) !== null;
    if (isEven && isPrintable && mayCover(first, count, bar.length, isRest)) return endOf(last);
  }
  return null;
}

/** The pieces in which a note or rest of one bar is printed, split at the pulses. `edges` are all places at which its voice begins or ends something. */
export function piecesOf(
  stretch: Stretch & { readonly isRest: boolean },
  pulses: readonly Pulse[],
  edges: readonly number[],
): Piece[] {
  const pieces: Piece[] = [];
  let at = stretch.startUnits;
  while (at < stretch.endUnits) {
    const from = at;
    const pulse = pulses.find((one) => from < endOf(one));
    if (pulse === undefined) break;
    const run = from === pulse.startUnits ? longestRun(pulse, pulses, stretch.endUnits, stretch.isRest) : null;
    const endUnits = run ?? Math.min(stretch.endUnits, endOf(pulse));
    const value = run === null ? null : valueOf(run - from);
    if (run !== null && value !== null) pieces.push({ startUnits: from, endUnits, ...value, tuplet: null });
    else {
      const inner = edges.filter((units) => units >= pulse.startUnits && units <= endOf(pulse));
      pieces.push(...piecesInPulse({ startUnits: from, endUnits }, pulse, inner));
    }
    at = endUnits;
  }
  return pieces;
}
