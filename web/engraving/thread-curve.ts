/** A point of a thread, in pixels. */
export interface ThreadPoint {
  readonly x: number;
  readonly y: number;
}

const liftInset = 13;

/**
 * The points of a thread with those stretches raised by half a space that would otherwise lie flat on a staff line
 * and be taken for it.
 */
export function liftOffStaffLines(
  points: readonly ThreadPoint[],
  lineYs: readonly number[],
  direction: 'up' | 'down',
): readonly ThreadPoint[] {
  const halfSpace = halfSpaceOf(lineYs) * (direction === 'up' ? -1 : 1);
  const lifted: ThreadPoint[] = [];
  points.forEach((point, index) => {
    lifted.push(point);
    const next = points[index + 1];
    if (next === undefined || Math.abs(next.y - point.y) > 2.5 || !liesOnLine(point.y, lineYs)) return;
    const room = next.x - point.x;
    if (room < 3 * liftInset) return;
    lifted.push({ x: point.x + liftInset, y: point.y + halfSpace }, { x: next.x - liftInset, y: next.y + halfSpace });
  });
  return lifted;
}

const halfSpaceOf = (lineYs: readonly number[]): number =>
  lineYs.length < 2 ? 5 : ((lineYs[1] as number) - (lineYs[0] as number)) / 2;

const liesOnLine = (y: number, lineYs: readonly number[]): boolean => lineYs.some((lineY) => Math.abs(lineY - y) < 2.5);

/**
 * The SVG path of a smooth curve through points of ascending x that never overshoots a point.
 * Source: F. N. Fritsch and R. E. Carlson, Monotone Piecewise Cubic Interpolation, SIAM J. Numer. Anal. 17 (1980).
 */
export function threadPath(points: readonly ThreadPoint[]): string {
  const clean = mergeColumns(points);
  const first = clean[0];
  if (first === undefined || clean.length < 2) return '';
  const slopes = monotoneSlopes(clean);
  const parts = [`M${round(first.x)} ${round(first.y)}`];
  for (let index = 1; index < clean.length; index += 1) {
    const from = clean[index - 1] as ThreadPoint;
    const to = clean[index] as ThreadPoint;
    const third = (to.x - from.x) / 3;
    const leaveY = from.y + (slopes[index - 1] as number) * third;
    const arriveY = to.y - (slopes[index] as number) * third;
    parts.push(
      `C${round(from.x + third)} ${round(leaveY)} ${round(to.x - third)} ${round(arriveY)} ${round(to.x)} ${round(to.y)}`,
    );
  }
  return parts.join('');
}

const round = (value: number): number => Math.round(value * 10) / 10;

function mergeColumns(points: readonly ThreadPoint[]): readonly ThreadPoint[] {
  const merged: ThreadPoint[] = [];
  for (const point of points) {
    const last = merged.at(-1);
    if (last !== undefined && point.x - last.x < 1) continue;
    merged.push(point);
  }
  return merged;
}

function monotoneSlopes(points: readonly ThreadPoint[]): readonly number[] {
  const secants = points.slice(1).map((to, index) => {
    const from = points[index] as ThreadPoint;
    return (to.y - from.y) / (to.x - from.x);
  });
  return points.map((_, index) => {
    const before = secants[index - 1];
    const after = secants[index];
    if (before === undefined || after === undefined) return 0;
    if (before * after <= 0) return 0;
    return (2 * before * after) / (before + after);
  });
}
