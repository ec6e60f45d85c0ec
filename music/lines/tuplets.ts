import { gcd, lcm } from '../basis/fraction.ts';
import { beatsOf, itemised, type MetricNode } from './meter-tree.ts';
import { isPowerOfTwo, unitsPerQuarter } from './note-values.ts';

/** A stretch of a bar that is counted in `actual` notes in the time of `normal`, and the tuplets within it. **Units** ticks from the start of the meter. */
export interface Tuplet {
  readonly startTicks: number;
  readonly endTicks: number;
  readonly actual: number;
  readonly normal: number;
  /** The printed value of one of the `actual` notes. **Units** 256th notes. */
  readonly itemUnits: number;
  readonly inner: readonly Tuplet[];
}

/** A note or a gap of a bar. **Units** ticks from the start of the meter. */
interface TupletSpan {
  readonly startTicks: number;
  readonly endTicks: number;
  readonly isRest: boolean;
}

/** How ticks are counted in 256ths, from an origin that need not be the bar's. */
export interface TickCount {
  readonly originTicks: number;
  readonly units: number;
  readonly perTicks: number;
}

/** What tuplets are looked for in: a bar's notes and gaps, and every place where a note or a gap begins or ends. **Units** ticks from the start of the meter. */
export interface TupletSearch {
  readonly edges: readonly number[];
  readonly spans: readonly TupletSpan[];
  readonly tree: MetricNode;
  readonly count: TickCount;
  /** Tuplets lie within the part of the meter that the bar covers. */
  readonly limits: { readonly startTicks: number; readonly endTicks: number };
  /** Whether the source brackets tuplets within tuplets in a stretch; null within a tuplet, where none is looked for. */
  readonly isNestedAt: ((startTicks: number, endTicks: number) => boolean) | null;
}

interface Candidate extends Tuplet {
  readonly cost: readonly number[];
}

interface Frame {
  readonly startUnits: number;
  readonly lengthUnits: number;
  readonly isAboveBeat: boolean;
}

const largestDivision = 31;
const smallestFrameUnits = 16;
/** What is printed as one tuplet over several beats; anything else is written beat by beat and tied. */
const overBeats: readonly number[] = [3, 5, 7];
/** What holds other tuplets. */
const holders: readonly number[] = [3, 5, 7];

/** Ticks of plain values, counted from the start of the meter. */
export const plainCount = (ticksPerQuarter: number): TickCount => ({
  originTicks: 0,
  units: unitsPerQuarter,
  perTicks: ticksPerQuarter,
});

/** Ticks as they are counted within a tuplet. */
export const countWithin = ({
  startTicks,
  endTicks,
  actual,
  itemUnits,
}: Pick<Tuplet, 'startTicks' | 'endTicks' | 'actual' | 'itemUnits'>): TickCount => ({
  originTicks: startTicks,
  units: actual * itemUnits,
  perTicks: endTicks - startTicks,
});

const isCounted = (ticks: number, { originTicks, units, perTicks }: TickCount): boolean =>
  ((ticks - originTicks) * units) % perTicks === 0;

function framesAround(node: MetricNode, units: number): readonly Frame[] {
  const inside = node
    .children()
    .find((child) => child.startUnits <= units && units < child.startUnits + child.lengthUnits);
  const deeper = inside === undefined || inside.lengthUnits < smallestFrameUnits ? [] : framesAround(inside, units);
  return [node, ...deeper];
}

/** Two neighbours of equal length: two beats, or two notes of a tuplet. */
function pairsAround(tree: MetricNode, units: number): readonly Frame[] {
  const beats = tree.isAboveBeat ? beatsOf(tree) : tree.division === 'thirds' ? tree.children() : [];
  return beats.slice(1).flatMap((second, index): readonly Frame[] => {
    const first = beats[index];
    if (first?.lengthUnits !== second.lengthUnits) return [];
    const pair = {
      startUnits: first.startUnits,
      lengthUnits: 2 * first.lengthUnits,
      isAboveBeat: tree.isAboveBeat,
    };
    return units >= pair.startUnits && units < pair.startUnits + pair.lengthUnits ? [pair] : [];
  });
}

/** As many notes of a plain value as fill the frame and are not more than the tuplet's: 2 for 3, 4 for 5, 6 for 7 in a compound beat. */
function normalCount(lengthUnits: number, actual: number): number | null {
  const isCompound = lengthUnits % 3 === 0 && isPowerOfTwo(lengthUnits / 3);
  if (!isCompound && !isPowerOfTwo(lengthUnits)) return null;
  let normal = isCompound ? 3 : 1;
  while (normal * 2 <= actual) normal *= 2;
  return normal < actual ? normal : null;
}

function splitDenominator(denominator: number): { readonly odd: number; readonly halvings: number } {
  let odd = denominator;
  let halvings = 0;
  while (odd % 2 === 0) {
    odd /= 2;
    halvings += 1;
  }
  return { odd, halvings };
}

/** A frame with the number of equal parts that its edges divide it into. */
interface DividedFrame {
  readonly frame: Frame;
  readonly startTicks: number;
  readonly endTicks: number;
  readonly odd: number;
  readonly halvings: number;
}

function divided(frame: Frame, { edges, count, limits }: TupletSearch): DividedFrame | null {
  const startTicks = count.originTicks + (frame.startUnits * count.perTicks) / count.units;
  const lengthTicks = (frame.lengthUnits * count.perTicks) / count.units;
  const endTicks = startTicks + lengthTicks;
  if (!Number.isInteger(startTicks) || !Number.isInteger(endTicks)) return null;
  if (startTicks < limits.startTicks || endTicks > limits.endTicks) return null;
  const inner = edges.filter((edge) => edge > startTicks && edge < endTicks);
  const parts = inner.reduce((sum, edge) => lcm(sum, lengthTicks / gcd(edge - startTicks, lengthTicks)), 1);
  return { frame, startTicks, endTicks, ...splitDenominator(parts) };
}

/** The frame as a tuplet of so many notes that each halve so often; null where no value says one of them. */
function tupletOf({ frame, startTicks, endTicks }: DividedFrame, actual: number, halvings: number): Tuplet | null {
  const normal = normalCount(frame.lengthUnits, actual);
  if (normal === null) return null;
  const itemUnits = frame.lengthUnits / normal;
  const spareHalvings = Math.max(0, halvings - (31 - Math.clz32(itemUnits)));
  if (!Number.isInteger(itemUnits) || spareHalvings > 0) return null;
  return { startTicks, endTicks, actual, normal, itemUnits, inner: [] };
}

/** The frame as a tuplet of few notes with tuplets within some of them, where these say all its edges and cut no note. */
function nestedOf(area: DividedFrame, search: TupletSearch): Tuplet | null {
  if (search.isNestedAt === null) return null;
  const { startTicks, endTicks } = area;
  const isInSource = search.isNestedAt(startTicks, endTicks);
  const edges = search.edges.filter((edge) => edge >= startTicks && edge <= endTicks);
  for (const actual of holders.filter((count) => area.odd % count === 0 && area.odd > count)) {
    const outer = tupletOf(area, actual, 0);
    if (outer === null) continue;
    const count = countWithin(outer);
    const tree = itemised(actual, outer.itemUnits)(0);
    const inner = tupletsOf({ ...search, edges, tree, count, limits: outer, isNestedAt: null });
    const itemTicks = (endTicks - startTicks) / actual;
    const isWhole = inner.every(
      (tuplet) =>
        edges.includes(tuplet.startTicks) &&
        edges.includes(tuplet.endTicks) &&
        (isInSource || tuplet.endTicks - tuplet.startTicks <= itemTicks),
    );
    const isSaid = edges.every(
      (edge) => isCounted(edge, count) || inner.some((tuplet) => edge > tuplet.startTicks && edge < tuplet.endTicks),
    );
    const filled = inner.reduce((sum, tuplet) => sum + tuplet.endTicks - tuplet.startTicks, 0);
    const isClearer = filled < endTicks - startTicks || isInSource || area.odd > largestDivision;
    if (inner.length > 0 && isWhole && isSaid && isClearer) return { ...outer, inner };
  }
  return null;
}

/** What it costs that a span reaches over the edge of a tuplet: a tie where it can be cut there, twice that where the rest would need another tuplet. */
function crossingCost(span: TupletSpan, tuplet: Tuplet, count: TickCount): number {
  const meets = span.startTicks < tuplet.endTicks && span.endTicks > tuplet.startTicks;
  const isWithin = span.startTicks >= tuplet.startTicks && span.endTicks <= tuplet.endTicks;
  if (!meets || isWithin) return 0;
  const offCount = [span.startTicks, span.endTicks].filter((ticks) => !isCounted(ticks, count)).length;
  return offCount === 2 ? 2 : span.isRest ? 0 : offCount;
}

function candidateFor(frame: Frame, search: TupletSearch): Candidate | null {
  const area = divided(frame, search);
  if (area === null) return null;
  const plain = area.odd > largestDivision ? null : tupletOf(area, area.odd, area.halvings);
  const tuplet = nestedOf(area, search) ?? plain;
  if (tuplet === null) return null;
  const isReadable = tuplet.inner.length > 0 || (area.halvings === 0 && overBeats.includes(area.odd));
  if (frame.isAboveBeat && !isReadable) return null;
  const crossings = search.spans.reduce((sum, span) => sum + crossingCost(span, tuplet, search.count), 0);
  return { ...tuplet, cost: [crossings, area.odd, area.halvings, frame.lengthUnits] };
}

function compareCosts(left: readonly number[], right: readonly number[]): number {
  const index = left.findIndex((part, place) => part !== right[place]);
  return index < 0 ? 0 : (left[index] ?? 0) - (right[index] ?? 0);
}

/** The tuplets that a bar needs so that every edge can be printed, in order and apart from one another, with the tuplets within them; edges that no tuplet reaches stay uncovered. */
export function tupletsOf(search: TupletSearch): readonly Tuplet[] {
  const { count } = search;
  const found: Tuplet[] = [];
  for (const edge of search.edges) {
    const covered = found.at(-1)?.endTicks ?? -Infinity;
    if (edge < covered || isCounted(edge, count)) continue;
    const units = ((edge - count.originTicks) * count.units) / count.perTicks;
    const frames = [...framesAround(search.tree, units), ...pairsAround(search.tree, units)];
    const candidates = frames
      .flatMap((frame) => candidateFor(frame, search) ?? [])
      .filter((candidate) => candidate.startTicks >= covered)
      .sort((left, right) => compareCosts(left.cost, right.cost));
    const [best] = candidates;
    if (best === undefined) continue;
    found.push(best);
  }
  return found;
}
