/** A rectangle about its middle. **Units** pixels. */
export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** A label that looks for a place: where it may stand, best first, and its rank among the others. */
export interface LabelWish<Key> {
  readonly key: Key;
  readonly boxes: readonly Box[];
  /** Lower comes first. */
  readonly rank: number;
}

const narrow = /[ijlft.,'’\-|!]/u;
const wide = /[mwMW]/u;
const [narrowPixels, plainPixels, widePixels] = [3.8, 6.6, 9.6];

/** About how wide a short text in the labels' letters is. From memory, no source. **Units** pixels. */
export const labelWidth = (text: string): number =>
  Array.from(text).reduce(
    (sum, sign) => sum + (narrow.test(sign) ? narrowPixels : wide.test(sign) ? widePixels : plainPixels),
    0,
  );

const touches = (one: Box, other: Box): boolean =>
  Math.abs(one.x - other.x) * 2 < one.width + other.width && Math.abs(one.y - other.y) * 2 < one.height + other.height;

/**
 * Where each label stands: in the first of its places where it touches no label of lower rank and nothing that must
 * stay free of others’ labels. A label without a place is left out; those that stand never touch.
 */
export function placeLabels<Key>(
  wishes: readonly LabelWish<Key>[],
  obstacles: readonly (Box & { readonly of: Key })[] = [],
): ReadonlyMap<Key, Box> {
  const placed = new Map<Key, Box>();
  for (const { key, boxes } of [...wishes].sort((a, b) => a.rank - b.rank)) {
    const free = boxes.find(
      (box) =>
        ![...placed.values()].some((other) => touches(box, other)) &&
        !obstacles.some((obstacle) => obstacle.of !== key && touches(box, obstacle)),
    );
    if (free !== undefined) placed.set(key, free);
  }
  return placed;
}
