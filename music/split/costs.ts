import type { Evidence } from './evidence.ts';
import type { HypothesisPool } from './hypotheses.ts';
import { costPerSemitone, gapStepOf, wholeShare, type Prices } from './prices.ts';
import type { UnitTable } from './units.ts';

const meanScale = 16;
/** A line may go on over its own ringing note at this part of the price. */
const ringingShare = 8;
/** Ends at most this part of a quarter note apart are one end. */
const slackPartOfQuarter = 32;
/** The value of a line's first unit where lengths tell nothing. */
const noValue = -128;

/** Where the texture around puts each line at each moment. */
export interface Profile {
  /** **Shape** indexed `moment × lineCount + line`. **Units** 1/16 semitone. */
  readonly pitch: Int32Array;
  /** How far it is believed of a line that goes on, of 1024: the less, the seldomer the texture is full. */
  readonly trust: number;
}

/** All that a moment's costs are computed from. */
export interface CostContext {
  readonly units: UnitTable;
  readonly lineCount: number;
  readonly ticksPerQuarter: number;
  readonly prices: Prices;
  /** False where every note rings on or is written as long as the time to the next. */
  readonly lengthsTell: boolean;
  readonly profile: Profile | null;
  readonly evidence: readonly Evidence[];
}

function unlikeCost(evidence: readonly Evidence[], one: number, other: number): number {
  let cost = 0;
  for (const { mark, price } of evidence) {
    const [first, second] = [mark[one] as number, mark[other] as number];
    if (first !== -1 && second !== -1 && first !== second) cost += price;
  }
  return cost;
}

/** `away` is how long the line has rested, from 0 for not at all to 1024. */
function profileCost(context: CostContext, moment: number, line: number, middle: number, away: number): number {
  const { profile, prices, lineCount } = context;
  if (profile === null) return 0;
  const stay = Math.floor((prices.anchor * profile.trust) / wholeShare);
  const price = stay + Math.floor(((prices.anchorRest - stay) * away) / wholeShare);
  const distance = Math.min(Math.abs(middle - (profile.pitch[moment * lineCount + line] as number)), 12 * meanScale);
  return Math.floor((distance * price) / meanScale);
}

/** The note value that a line's evenness is judged by: of the unit's length or, where lengths tell nothing, of the time since the line's unit `before`; `noValue` where there is none. */
export function valueOnLine(context: CostContext, before: number, unit: number): number {
  const { units, prices, ticksPerQuarter } = context;
  if (context.lengthsTell) return units.value[unit] as number;
  if (before === -1) return noValue;
  const ticks = (units.onset[unit] as number) - (units.onset[before] as number);
  return prices.valueByStep[gapStepOf(ticks, ticksPerQuarter)] as number;
}

function unevennessCost(context: CostContext, valueBefore: number, before: number, unit: number): number {
  if (valueBefore === noValue) return 0;
  const change = Math.abs(valueOnLine(context, before, unit) - valueBefore);
  return Math.floor((change * context.prices.rhythm) / 4);
}

/** The cost of giving one unit to one line of a hypothesis, crossing and chords left out. **Units** 1/256 semitone. */
export function linkCost(
  context: CostContext,
  pool: HypothesisPool,
  hypothesis: number,
  moment: number,
  line: number,
  unit: number,
): number {
  const { units, prices, ticksPerQuarter } = context;
  const top = units.top[unit] as number;
  const low = units.low[unit] as number;
  const middle = (top + low) * (meanScale / 2);
  const cell = hypothesis * context.lineCount + line;
  const before = pool.unit[cell] as number;
  if (before === -1) return prices.newLine + profileCost(context, moment, line, middle, wholeShare);
  const unlike = context.evidence.length === 0 ? 0 : unlikeCost(context.evidence, before, unit);
  const leap = Math.min(Math.abs(top - (pool.top[cell] as number)), Math.abs(low - (pool.low[cell] as number)));
  let cost = Math.min(prices.leapCap, leap * costPerSemitone);
  const gap = (units.onset[unit] as number) - (pool.end[cell] as number);
  const slack = ticksPerQuarter / slackPartOfQuarter;
  const step = gap > slack ? gapStepOf(gap, ticksPerQuarter) : 0;
  if (step > 0) cost = Math.floor((cost * (prices.memoryByStep[step] as number)) / wholeShare);
  cost += prices.gapByStep[step] as number;
  if (gap < -slack) cost += units.ringing[before] === 1 ? Math.floor(prices.overlap / ringingShare) : prices.overlap;
  cost += profileCost(context, moment, line, middle, prices.awayByStep[step] as number);
  const distance = Math.abs(middle - (pool.mean[cell] as number));
  cost += Math.floor((distance * prices.register) / meanScale);
  return cost + unevennessCost(context, pool.value[cell] as number, before, unit) + unlike;
}

/** The cost of a unit on `line` lying beyond what the neighbouring `other` line did last, while that line has nothing new. */
export function crossingCost(
  context: CostContext,
  pool: HypothesisPool,
  base: number,
  line: number,
  other: number,
  unit: number,
): number {
  const { units, prices, ticksPerQuarter } = context;
  const cell = base + other;
  if (pool.unit[cell] === -1) return 0;
  const isBeyond =
    other < line
      ? (units.top[unit] as number) > (pool.low[cell] as number)
      : (units.low[unit] as number) < (pool.top[cell] as number);
  if (!isBeyond) return 0;
  const slack = ticksPerQuarter / slackPartOfQuarter - (prices.linger * ticksPerQuarter) / costPerSemitone;
  const sounds = (pool.end[cell] as number) - (units.onset[unit] as number) > slack;
  return sounds ? prices.crossing : prices.order;
}

/** The cost of two neighbouring units of one moment being on one line. */
export function chordCost(context: CostContext, upper: number, lower: number): number {
  const { units, prices, ticksPerQuarter } = context;
  const interval = (units.low[upper] as number) - (units.top[lower] as number);
  const unevenTicks = Math.abs((units.end[upper] as number) - (units.end[lower] as number));
  const uneven = unevenTicks > ticksPerQuarter / slackPartOfQuarter ? prices.chordUneven : 0;
  const isTwin = interval === 0 ? 4 * prices.overlap : 0;
  const unlike = 2 * unlikeCost(context.evidence, upper, lower);
  return unlike + prices.chord + Math.floor(interval) * prices.chordSpan + uneven + isTwin;
}
