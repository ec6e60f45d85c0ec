/** A list with the item at `index` moved by `by` places, held within the list. */
export function moved<Item>(items: readonly Item[], index: number, by: number): readonly Item[] {
  const target = Math.min(items.length - 1, Math.max(0, index + by));
  const without = items.filter((_, place) => place !== index);
  const item = items[index];
  return item === undefined ? items : [...without.slice(0, target), item, ...without.slice(target)];
}
