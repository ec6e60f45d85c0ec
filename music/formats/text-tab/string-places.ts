import type { StringLine } from './string-line.ts';
import type { TabLog } from './tab-log.ts';

const same = (a: string | null, b: string | null): boolean => (a ?? '').toLowerCase() === (b ?? '').toLowerCase();

/** Where the lines of a shorter system stand among the labels of a whole one, or null where they do not fit in order. */
function placesByLabels(lines: readonly StringLine[], labels: readonly (string | null)[]): number[] | null {
  const places: number[] = [];
  let from = 0;
  for (const { label } of lines) {
    const at = labels.findIndex((candidate, index) => index >= from && same(candidate, label) && label !== null);
    if (at < 0) return null;
    places.push(at);
    from = at + 1;
  }
  return places;
}

function report(lines: readonly StringLine[], count: number, isByLabel: boolean, log: TabLog): void {
  const missing = count - lines.length;
  const what = missing === 1 ? 'One string is' : `${missing} strings are`;
  const how = isByLabel ? 'the letters at the left tell which' : 'the lowest were taken to be missing';
  log.add('value-repaired', 'warning', `${what} missing here; ${how}, and nothing sounds there.`, lines[0]?.line);
}

/** The lines of a system by string, highest first, null for those that are missing. */
export function byString(
  lines: readonly StringLine[],
  labels: readonly (string | null)[],
  isUpsideDown: boolean,
  log: TabLog,
): (StringLine | null)[] {
  const count = labels.length;
  const rows = Array.from({ length: count }, (): StringLine | null => null);
  const places = lines.length < count ? placesByLabels(lines, labels) : null;
  if (lines.length < count) report(lines, count, places !== null, log);
  lines.forEach((line, index) => {
    const place = places?.[index] ?? index;
    if (place < count) rows[place] = line;
  });
  return isUpsideDown ? rows.toReversed() : rows;
}
