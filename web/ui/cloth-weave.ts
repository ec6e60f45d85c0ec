import type { Dye } from '../../music/index.ts';

/** A piece of cloth as a drawing needs it: the weft's dyes row by row, and where each warp thread lies on top. */
export interface Weave {
  readonly weft: readonly Dye[];
  /** For each warp thread the stretches of rows, first and last, on which it lies over the weft. */
  readonly over: readonly (readonly { readonly first: number; readonly last: number }[])[];
}

const dyes: readonly Dye[] = ['madder', 'verdigris', 'indigo', 'walnut', 'weld', 'logwood'];
const bands: readonly (readonly number[])[] = [
  [2, 2, 1, 3, 1],
  [3, 1, 2, 1],
  [1, 2, 1, 4],
  [4, 1, 1, 2],
];

/** A number from 0 to 2³²−1 that the text alone decides. **Source** FNV-1a, 32 bits. */
export function numberOfText(text: string): number {
  let hash = 2166136261;
  for (let index = 0; index < text.length; index += 1) hash = Math.imul(hash ^ text.charCodeAt(index), 16777619);
  return hash >>> 0;
}

function weftOf(seed: number, rows: number): Dye[] {
  const weft: Dye[] = [];
  const band = bands[seed % bands.length] as readonly number[];
  const first = Math.floor(seed / 7) % dyes.length;
  for (let turn = 0; weft.length < rows; turn += 1) {
    const dye = dyes[(first + (turn % 4)) % dyes.length] as Dye;
    const width = band[turn % band.length] as number;
    for (let row = 0; row < width; row += 1) weft.push(dye);
  }
  return weft.slice(0, rows);
}

/** Whether a warp thread lies on top at a row: a two-by-two twill that turns about every `turn` threads. */
function liesOver(row: number, warp: number, turn: number): boolean {
  const phase = Math.floor(warp / turn) % 2 === 0 ? warp % turn : turn - 1 - (warp % turn);
  return (row + phase) % 4 < 2;
}

function stretchesOf(warp: number, rows: number, turn: number): { first: number; last: number }[] {
  const stretches: { first: number; last: number }[] = [];
  for (let row = 0; row < rows; row += 1) {
    if (!liesOver(row, warp, turn)) continue;
    const latest = stretches.at(-1);
    if (latest !== undefined && latest.last === row - 1) latest.last = row;
    else stretches.push({ first: row, last: row });
  }
  return stretches;
}

/** The cloth that belongs to a text: the same text always gives the same cloth. */
export function weaveOf(text: string, rows: number, warps: number): Weave {
  const seed = numberOfText(text);
  const turn = [4, 6, 8, 12][Math.floor(seed / 64) % 4] as number;
  return {
    weft: weftOf(seed, rows),
    over: Array.from({ length: warps }, (_, warp) => stretchesOf(warp, rows, turn)),
  };
}
