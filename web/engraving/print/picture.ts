import { extentOf, placeShape, placeWords, type Drawing, type Extent } from './shape.ts';

const margin = 8;
const gapBetweenSystems = 6;

const strokeMargin = (width: number | undefined): number => (width ?? 0) / 2;

/** What the shapes of a drawing cover, the width of their strokes included; null where there are none. */
export function coveredBy({ shapes }: Drawing): Extent | null {
  const all = shapes.flatMap(({ steps, stroke }) => {
    const extent = extentOf(steps);
    const more = strokeMargin(stroke?.width);
    return extent === null
      ? []
      : [
          {
            left: extent.left - more,
            top: extent.top - more,
            right: extent.right + more,
            bottom: extent.bottom + more,
          },
        ];
  });
  if (all.length === 0) return null;
  return {
    left: Math.min(...all.map(({ left }) => left)),
    top: Math.min(...all.map(({ top }) => top)),
    right: Math.max(...all.map(({ right }) => right)),
    bottom: Math.max(...all.map(({ bottom }) => bottom)),
  };
}

/** Drawings below one another as one. */
export function stacked(drawings: readonly Drawing[], gap = gapBetweenSystems): Drawing {
  let top = 0;
  const placed = drawings.map((drawing) => {
    const y = top;
    top += drawing.height + gap;
    return {
      shapes: drawing.shapes.map((shape) => placeShape(shape, 0, y, 1)),
      words: drawing.words.map((words) => placeWords(words, 0, y, 1)),
    };
  });
  return {
    width: Math.max(0, ...drawings.map(({ width }) => width)),
    height: Math.max(0, top - gap),
    shapes: placed.flatMap(({ shapes }) => shapes),
    words: placed.flatMap(({ words }) => words),
  };
}

/** A drawing cut to what it shows, with a little room around. */
export function trimmed(drawing: Drawing): Drawing {
  const extent = coveredBy(drawing);
  if (extent === null) return drawing;
  const x = margin - extent.left;
  const y = margin - extent.top;
  return {
    width: Math.ceil(extent.right - extent.left + 2 * margin),
    height: Math.ceil(extent.bottom - extent.top + 2 * margin),
    shapes: drawing.shapes.map((shape) => placeShape(shape, x, y, 1)),
    words: drawing.words.map((words) => placeWords(words, x, y, 1)),
  };
}
