/** The place of the last of some items, sorted by `startOf`, that does not begin after `value`; the first one before them all. */
export function placeOfLast<Item>(items: readonly Item[], startOf: (item: Item) => number, value: number): number {
  let low = 0;
  let high = items.length - 1;
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    const item = items[middle];
    if (item !== undefined && startOf(item) <= value) low = middle;
    else high = middle - 1;
  }
  return low;
}
