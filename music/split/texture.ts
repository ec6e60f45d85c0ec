import type { NoteTable } from './moments.ts';

/** How many notes sound at once. **Shape** each column is indexed by a count `k`. */
export interface Texture {
  /** Shares of the sounding time during which at least `k` notes sound. */
  readonly sounding: readonly number[];
  /** The same, notes that begin and end together counted once. */
  readonly independent: readonly number[];
  /** Shares of the moments at which at least `k` notes begin. */
  readonly struck: readonly number[];
}

/** No more than this many lines are looked for. */
export const mostLines = 8;

function sharesOf(ticksAt: Float64Array): number[] {
  const shares = new Array<number>(ticksAt.length).fill(0);
  let sum = 0;
  for (let count = ticksAt.length - 1; count >= 1; count--) shares[count] = sum += ticksAt[count] as number;
  return shares.map((ticks) => (sum === 0 ? 0 : ticks / sum));
}

function distinctSpans(table: NoteTable, active: readonly number[]): number {
  let distinct = 0;
  active.forEach((note, index) => {
    const isFirst = !active
      .slice(0, index)
      .some((other) => table.onset[other] === table.onset[note] && table.end[other] === table.end[note]);
    if (isFirst) distinct++;
  });
  return distinct;
}

/** The texture of the whole piece. */
export function textureOf(table: NoteTable): Texture {
  const size = mostLines + 2;
  const sounding = new Float64Array(size);
  const independent = new Float64Array(size);
  const struck = new Float64Array(size);
  let active: number[] = [];
  for (let moment = 0; moment < table.momentCount; moment++) {
    const from = table.momentStart[moment] as number;
    const to = table.momentStart[moment + 1] as number;
    const now = table.onset[from] as number;
    const together = Math.min(size - 1, to - from);
    struck[together] = (struck[together] as number) + 1;
    active = active.filter((note) => (table.end[note] as number) > now);
    for (let note = from; note < to && active.length < 4 * size; note++) active.push(note);
    const next = to < table.count ? (table.onset[to] as number) : Infinity;
    let cursor = now;
    const ends = [...new Set(active.map((note) => table.end[note] as number))]
      .filter((end) => end < next)
      .sort((a, b) => a - b);
    if (next !== Infinity) ends.push(next);
    for (const end of ends) {
      const left = active.filter((note) => (table.end[note] as number) > cursor);
      const [all, distinct] = [Math.min(size - 1, left.length), Math.min(size - 1, distinctSpans(table, left))];
      sounding[all] = (sounding[all] as number) + end - cursor;
      independent[distinct] = (independent[distinct] as number) + end - cursor;
      cursor = end;
    }
  }
  sounding[0] = independent[0] = 0;
  return { sounding: sharesOf(sounding), independent: sharesOf(independent), struck: sharesOf(struck) };
}

const steadyShare = 0.93;
const fullShare = 0.15;
const independentShare = 0.07;
const nearlyIndependentShare = 0.08;
/** Below this share of independent time, the lengths tell nothing: tablature rhythm, or chords throughout. */
const blockShare = 0.02;
const struckShare = 0.1;

function speaksFor(texture: Texture, count: number): boolean {
  const { sounding, independent, struck } = texture;
  const at = (shares: readonly number[], index: number): number => shares[index] ?? 0;
  if (at(sounding, count) >= steadyShare) return true;
  if (at(independent, 2) < blockShare) return at(struck, count) >= struckShare;
  if (count === 2 && at(sounding, 2) >= fullShare) return true;
  if (at(independent, count) >= independentShare) return true;
  return count >= 4 && at(sounding, count) >= fullShare && at(independent, count - 1) >= nearlyIndependentShare;
}

/** How many lines the texture speaks for: as many as sound nearly always, or as many as sound and move on their own often enough. */
export function lineCountOf(texture: Texture): number {
  let lines = 1;
  while (lines < mostLines && speaksFor(texture, lines + 1)) lines++;
  return lines;
}
