import { divisions } from './meter.ts';

/** A stretch of a bar that is printed as one triplet. **Units** divisions from the start of the bar. */
export interface TripletWindow {
  readonly from: number;
  readonly to: number;
}

const thirdOfTwo = (2 * divisions) / 3;
const straight = divisions / 16;

/** The beats, or pairs of beats, of a bar whose notes begin or end at thirds. */
export function tripletWindows(edges: readonly number[], length: number): TripletWindow[] {
  const windows: TripletWindow[] = [];
  const within = (from: number, to: number): number[] => edges.filter((edge) => edge > from && edge < to);
  let from = 0;
  while (from < length) {
    const pair = within(from, from + 2 * divisions);
    const isPair =
      from % (2 * divisions) === 0 && pair.length > 0 && pair.every((edge) => (edge - from) % thirdOfTwo === 0);
    const to = from + (isPair ? 2 : 1) * divisions;
    if (isPair || within(from, to).some((edge) => (edge - from) % straight !== 0)) windows.push({ from, to });
    from = to;
  }
  return windows;
}
