/** No more units than this are remembered to sound, so that music in which everything rings on takes no longer than other music. */
const mostSounding = 40;

/** Those of the units that sound beyond `now`, in their order; where they are too many, those that end last. **Units** ticks. */
export function stillSounding(active: readonly number[], ends: Float64Array, now: number): number[] {
  const left = active.filter((unit) => (ends[unit] as number) > now);
  if (left.length <= mostSounding) return left;
  const last = [...left].sort((a, b) => (ends[b] as number) - (ends[a] as number) || a - b).slice(0, mostSounding);
  return last.sort((a, b) => a - b);
}
