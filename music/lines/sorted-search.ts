/** The index of the first item at or after `ticks` in a list sorted by ticks; its length where there is none. */
export function indexAtOrAfter<Item>(items: readonly Item[], ticksOf: (item: Item) => number, ticks: number): number {
  let low = 0;
  let high = items.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    const item = items[middle];
    if (item !== undefined && ticksOf(item) < ticks) low = middle + 1;
    else high = middle;
  }
  return low;
}
