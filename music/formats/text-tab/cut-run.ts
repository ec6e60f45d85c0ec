import type { StringLine } from './string-line.ts';

/** How many strings a system may have. */
export const mostStrings = 8;
export const fewestStrings = 4;

const chunksOf = (lines: readonly StringLine[], size: number): StringLine[][] =>
  Array.from({ length: lines.length / size }, (_, index) => lines.slice(index * size, (index + 1) * size));

/** Sizes into which a run can be cut into two systems or more, the likeliest first. */
const sizes = [6, 4, 7, 5, 8];

const labelOf = ({ label }: StringLine): string => (label ?? '').toLowerCase();

/** Cuts lines that touch where the letters at the left come again and again in the same order; null where they do not. */
export function cutAtLabels(lines: readonly StringLine[]): StringLine[][] | null {
  if (lines.some(({ label }) => label === null)) return null;
  const size = sizes.find(
    (count) =>
      lines.length % count === 0 &&
      lines.length > count &&
      lines.every((line, index) => labelOf(line) === labelOf(lines[index % count] ?? line)),
  );
  return size === undefined ? null : chunksOf(lines, size);
}

const barsOf = ({ body }: StringLine): string => [...body.matchAll(/\|/g)].map(({ index }) => index).join();

/** Cuts lines without letters into systems whose bar lines stand under each other. */
function cutAtBarLines(lines: readonly StringLine[]): StringLine[][] | null {
  const isEven = (chunk: readonly StringLine[]): boolean => new Set(chunk.map(barsOf)).size === 1;
  const size = sizes.find((count) => lines.length % count === 0 && chunksOf(lines, count).every(isEven));
  return size === undefined ? null : chunksOf(lines, size);
}

/** Cuts lines that touch into systems: of a known count, where the letters at the left begin again, or where the bar lines are others. */
export function cutRun(lines: readonly StringLine[], count: number): StringLine[][] {
  const byLabels = cutAtLabels(lines);
  if (byLabels !== null) return byLabels;
  if (lines.length <= mostStrings && (lines.length <= count || count === 0)) return [[...lines]];
  if (count > 0 && lines.length % count === 0) return chunksOf(lines, count);
  const first = (lines[0]?.label ?? '').toLowerCase();
  const starts = lines.flatMap((line, index) => (labelOf(line) === first && first !== '' ? [index] : []));
  const isCycle = starts.length > 1 && (starts[1] ?? 0) >= fewestStrings;
  if (isCycle) return starts.map((start, index) => lines.slice(start, starts[index + 1]));
  return cutAtBarLines(lines) ?? [[...lines]];
}
