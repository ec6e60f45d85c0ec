import { gcd, lcm } from '../basis/fraction.ts';
import { beatsOf, type MetricNode } from './meter-tree.ts';
import { isPowerOfTwo, unitsOfTicks, unitsPerQuarter } from './note-values.ts';

/** A stretch of a bar that is counted in `actual` notes in the time of `normal`. **Units** ticks from the start of the meter. */
export interface Tuplet {
  readonly startTicks: number;
  readonly endTicks: number;
  readonly actual: number;
  readonly normal: number;
  /** The printed value of one of the `actual` notes. **Units** 256th notes. */
  readonly itemUnits: number;
}

/** A note or a gap of a bar. **Units** ticks from the start of the meter. */
interface TupletSpan {
  readonly startTicks: number;
  readonly endTicks: number;
  readonly isRest: boolean;
}

/** What tuplets are looked for in: a bar's notes and gaps, and every place where a note or a gap begins or ends. **Units** ticks from the start of the meter. */
export interface TupletSearch {
  readonly edges: readonly number[];
  readonly spans: readonly TupletSpan[];
  readonly tree: MetricNode;
  readonly ticksPerQuarter: number;
  /** Tuplets lie within the part of the meter that the bar covers. */
  readonly limits: { readonly startTicks: number; readonly endTicks: number };
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

function framesAround(node: MetricNode, units: number): readonly Frame[] {
  const inside = node
    .children()
    .find((child) => child.startUnits <= units && units < child.startUnits + child.lengthUnits);
  const deeper = inside === undefined || inside.lengthUnits < smallestFrameUnits ? [] : framesAround(inside, units);
  return [node, ...deeper];
}

function beatPairsAround(tree: MetricNode, units: number): readonly Frame[] {
  const beats = beatsOf(tree);
  return beats.slice(1).flatMap((second, index): readonly Frame[] => {
    const first = beats[index];
    if (first?.lengthUnits !== second.lengthUnits) return [];
    const pair = { startUnits: first.startUnits, lengthUnits: 2 * first.lengthUnits, isAboveBeat: true };
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

function tupletOf(
  frame: Frame,
  search: TupletSearch,
): (Omit<Candidate, 'cost'> & { readonly fineness: number }) | null {
  const startTicks = (frame.startUnits * search.ticksPerQuarter) / unitsPerQuarter;
  const lengthTicks = (frame.lengthUnits * search.ticksPerQuarter) / unitsPerQuarter;
  const endTicks = startTicks + lengthTicks;
  if (!Number.isInteger(startTicks) || !Number.isInteger(endTicks)) return null;
  if (startTicks < search.limits.startTicks || endTicks > search.limits.endTicks) return null;
  const inner = search.edges.filter((edge) => edge > startTicks && edge < endTicks);
  const parts = inner.reduce((sum, edge) => lcm(sum, lengthTicks / gcd(edge - startTicks, lengthTicks)), 1);
  const { odd, halvings } = splitDenominator(parts);
  const normal = odd > largestDivision ? null : normalCount(frame.lengthUnits, odd);
  if (normal === null) return null;
  const itemUnits = frame.lengthUnits / normal;
  const spareHalvings = Math.max(0, halvings - (31 - Math.clz32(itemUnits)));
  if (!Number.isInteger(itemUnits) || spareHalvings > 0) return null;
  return { startTicks, endTicks, actual: odd, normal, itemUnits, fineness: halvings };
}

/** What it costs that a span reaches over the edge of a tuplet: a tie where it can be cut there, twice that where the rest would need another tuplet. */
function crossingCost(span: TupletSpan, tuplet: Tuplet, ticksPerQuarter: number): number {
  const meets = span.startTicks < tuplet.endTicks && span.endTicks > tuplet.startTicks;
  const isWithin = span.startTicks >= tuplet.startTicks && span.endTicks <= tuplet.endTicks;
  if (!meets || isWithin) return 0;
  const offCount = [span.startTicks, span.endTicks].filter(
    (ticks) => unitsOfTicks(ticks, ticksPerQuarter) === null,
  ).length;
  return offCount === 2 ? 2 : span.isRest ? 0 : offCount;
}

function candidateFor(frame: Frame, search: TupletSearch): Candidate | null {
  const found = tupletOf(frame, search);
  if (found === null) return null;
  const { fineness, ...tuplet } = found;
  if (frame.isAboveBeat && (fineness > 0 || !overBeats.includes(tuplet.actual))) return null;
  const crossings = search.spans.reduce((sum, span) => sum + crossingCost(span, tuplet, search.ticksPerQuarter), 0);
  return { ...tuplet, cost: [crossings, tuplet.actual, fineness, frame.lengthUnits] };
}

function compareCosts(left: readonly number[], right: readonly number[]): number {
  const index = left.findIndex((part, place) => part !== right[place]);
  return index < 0 ? 0 : (left[index] ?? 0) - (right[index] ?? 0);
}

/** The tuplets that a bar needs so that every edge can be printed, in order and apart from one another; edges that no tuplet reaches stay uncovered. */
export function tupletsOf(search: TupletSearch): readonly Tuplet[] {
  const found: Tuplet[] = [];
  for (const edge of search.edges) {
    const covered = found.at(-1)?.endTicks ?? -Infinity;
    if (edge < covered || unitsOfTicks(edge, search.ticksPerQuarter) !== null) continue;
    const units = (edge * unitsPerQuarter) / search.ticksPerQuarter;
    const frames = [...framesAround(search.tree, units), ...beatPairsAround(search.tree, units)];
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
