import type { NoteTable } from './moments.ts';

/** How many notes sound at once. **Shape** each column is indexed by a count `k`. */
export interface Texture {
  /** Shares of the sounding time during which at least `k` notes sound. */
  readonly sounding: readonly number[];
  /** The same, notes that begin and end together counted once. */
  readonly independent: readonly number[];
  /** The same as `sounding`, stretches left out that are too short to be more than a chord in passing. */
  readonly persistent: readonly number[];
  /** Shares of the moments at which at least `k` notes begin. */
  readonly struck: readonly number[];
  /** How long anything sounds. **Units** quarter notes. */
  readonly quarters: number;
}

/** No more than this many lines are looked for. */
export const mostLines = 8;

const size = mostLines + 2;
/** No more notes than this are told apart within one moment. */
const mostHeard = 4 * size;
/** A stretch persists that has at least so many moments and lasts so many quarter notes. */
const fewestMoments = 5;
const fewestQuarters = 2;

interface Tally {
  readonly ticksSounding: Float64Array;
  readonly ticksIndependent: Float64Array;
  readonly momentsStruck: Float64Array;
  readonly stretches: Stretches;
}

/** The stretches that are under way, for each count of notes. */
interface Stretches {
  readonly ticks: Float64Array;
  readonly moments: Float64Array;
  readonly ticksPersistent: Float64Array;
  readonly fewestTicks: number;
}

function endStretch({ ticks, moments, ticksPersistent, fewestTicks }: Stretches, count: number): void {
  if ((moments[count] as number) >= fewestMoments && (ticks[count] as number) >= fewestTicks)
    ticksPersistent[count] = (ticksPersistent[count] as number) + (ticks[count] as number);
  ticks[count] = moments[count] = 0;
}

function followStretches(stretches: Stretches, sounding: number, ticks: number, isMoment: boolean): void {
  for (let count = 1; count < size; count++) {
    if (count > sounding) {
      if ((stretches.ticks[count] as number) > 0) endStretch(stretches, count);
      continue;
    }
    stretches.ticks[count] = (stretches.ticks[count] as number) + ticks;
    if (isMoment) stretches.moments[count] = (stretches.moments[count] as number) + 1;
  }
}

function sharesOf(amountAt: Float64Array): number[] {
  const shares = new Array<number>(amountAt.length).fill(0);
  let sum = 0;
  for (let count = amountAt.length - 1; count >= 1; count--) shares[count] = sum += amountAt[count] as number;
  return shares.map((amount) => (sum === 0 ? 0 : amount / sum));
}

function distinctSpans(table: NoteTable, active: readonly number[]): number {
  let distinct = 0;
  active.forEach((note, index) => {
    const isFirst = !active
      .slice(0, index)
      .some((other) => table.onset[other] === table.onset[note] && table.heardUntil[other] === table.heardUntil[note]);
    if (isFirst) distinct++;
  });
  return distinct;
}

/** Counts what sounds from one moment to the next, in slices between the ends of notes. */
function tallyMoment(tally: Tally, table: NoteTable, active: readonly number[], now: number, next: number): void {
  let cursor = now;
  const ends = [...new Set(active.map((note) => table.heardUntil[note] as number))]
    .filter((end) => end < next)
    .sort((a, b) => a - b);
  if (next !== Infinity) ends.push(next);
  for (const end of ends) {
    const left = active.filter((note) => (table.heardUntil[note] as number) > cursor);
    const sounding = Math.min(size - 1, left.length);
    const distinct = Math.min(size - 1, distinctSpans(table, left));
    tally.ticksSounding[sounding] = (tally.ticksSounding[sounding] as number) + end - cursor;
    tally.ticksIndependent[distinct] = (tally.ticksIndependent[distinct] as number) + end - cursor;
    followStretches(tally.stretches, sounding, end - cursor, cursor === now);
    cursor = end;
  }
}

function textureFrom(
  { ticksSounding, ticksIndependent, momentsStruck, stretches }: Tally,
  perQuarter: number,
): Texture {
  ticksSounding[0] = ticksIndependent[0] = 0;
  const ticks = ticksSounding.reduce((sum, part) => sum + part, 0);
  for (let count = 1; count < size; count++) endStretch(stretches, count);
  return {
    sounding: sharesOf(ticksSounding),
    independent: sharesOf(ticksIndependent),
    persistent: Array.from(stretches.ticksPersistent, (part) => (ticks === 0 ? 0 : part / ticks)),
    struck: sharesOf(momentsStruck),
    quarters: ticks / perQuarter,
  };
}

/** The texture of the whole piece. */
export function textureOf(table: NoteTable, ticksPerQuarter: number): Texture {
  const columns = (): Float64Array => new Float64Array(size);
  const stretches = {
    ticks: columns(),
    moments: columns(),
    ticksPersistent: columns(),
    fewestTicks: fewestQuarters * ticksPerQuarter,
  };
  const tally = { ticksSounding: columns(), ticksIndependent: columns(), momentsStruck: columns(), stretches };
  let active: number[] = [];
  for (let moment = 0; moment < table.momentCount; moment++) {
    const from = table.momentStart[moment] as number;
    const to = table.momentStart[moment + 1] as number;
    const now = table.onset[from] as number;
    const together = Math.min(size - 1, to - from);
    tally.momentsStruck[together] = (tally.momentsStruck[together] as number) + 1;
    active = active.filter((note) => (table.heardUntil[note] as number) > now);
    for (let note = from; note < to && active.length < mostHeard; note++) active.push(note);
    tallyMoment(tally, table, active, now, to < table.count ? (table.onset[to] as number) : Infinity);
  }
  return textureFrom(tally, ticksPerQuarter);
}
