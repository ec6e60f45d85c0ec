import { extentOf, type Extent, type Paint, type Shape } from './shape.ts';

/** The colour that stands for the ground while a picture is collected; nothing else is painted with it. */
export const groundSentinel = '#fefffd';

/** What a picture lies on. Without a ground it stays open, to be laid over a video. */
export interface Inks {
  readonly ground: string | null;
  readonly ink: string;
  readonly staffLine: string;
  /** What a line's eye is filled with, open ground or not, so that its letter can be read. */
  readonly eye: string;
}

/** Inks for white paper, and for pictures over something light or dark. */
export const inks = {
  paper: { ground: '#ffffff', ink: '#000000', staffLine: '#4d463d', eye: '#ffffff' },
  overLight: { ground: null, ink: '#211d19', staffLine: '#6f675b', eye: '#fffcf5' },
  overDark: { ground: null, ink: '#f6efe2', staffLine: '#b9ae9b', eye: '#1d1a17' },
} as const satisfies Readonly<Record<string, Inks>>;

/** What the engraver itself paints in. */
const engraversInk = new Set(['#000000', '#211d19', '#f1e9da']);
const engraversStaffLine = '#8d857a';

const inked = (colour: string, { ink, staffLine }: Inks): string =>
  engraversInk.has(colour) ? ink : colour === engraversStaffLine ? staffLine : colour;

function inkedFill(fill: Paint | null, { tag }: Shape, set: Inks): Paint | null {
  if (fill?.kind !== 'plain') return fill;
  if (fill.colour !== groundSentinel) return { ...fill, colour: inked(fill.colour, set) };
  if (tag?.kind === 'eye') return { ...fill, colour: set.eye };
  return set.ground === null ? null : { ...fill, colour: set.ground };
}

function inkedShape(shape: Shape, set: Inks): Shape {
  const { stroke } = shape;
  const isHalo = stroke?.colour === groundSentinel;
  const kept = stroke === null || (isHalo && set.ground === null) ? null : stroke;
  const colour = isHalo ? (set.ground ?? '') : inked(kept?.colour ?? '', set);
  return { ...shape, fill: inkedFill(shape.fill, shape, set), stroke: kept === null ? null : { ...kept, colour } };
}

/** A level line as a stretch and a height; null for anything else. */
function levelLine(shape: Shape): Extent | null {
  const extent = extentOf(shape.steps);
  if (extent === null || extent.right - extent.left < 20) return null;
  return extent.bottom - extent.top < 1.6 ? extent : null;
}

/** What is left of a stretch outside of holes. */
function stretchesBetween(
  left: number,
  right: number,
  holes: readonly Extent[],
): readonly (readonly [number, number])[] {
  const parts: (readonly [number, number])[] = [];
  let from = left;
  for (const hole of [...holes].sort((one, other) => one.left - other.left)) {
    if (hole.left > from) parts.push([from, Math.min(hole.left, right)]);
    from = Math.max(from, hole.right);
  }
  if (from < right) parts.push([from, right]);
  return parts;
}

/** Level lines end where a number stands and go on behind it, since an open ground cannot cover them. */
function cutAround(shape: Shape, grounds: readonly Extent[]): readonly Shape[] {
  const line = levelLine(shape);
  if (line === null || shape.tag !== null) return [shape];
  const holes = grounds.filter(
    (hole) => hole.top < line.bottom && hole.bottom > line.top && hole.right > line.left && hole.left < line.right,
  );
  if (holes.length === 0) return [shape];
  return stretchesBetween(line.left, line.right, holes).map(([left, right]) => ({
    ...shape,
    steps:
      shape.fill === null
        ? [
            ['M', left, line.top],
            ['L', right, line.top],
          ]
        : [['M', left, line.top], ['L', right, line.top], ['L', right, line.bottom], ['L', left, line.bottom], ['Z']],
  }));
}

/** Shapes in the inks that their ground asks for. */
export function inkShapes(shapes: readonly Shape[], set: Inks): readonly Shape[] {
  const grounds = shapes.filter(({ tag }) => tag?.kind === 'ground').flatMap(({ steps }) => extentOf(steps) ?? []);
  return shapes
    .flatMap((shape) => (set.ground === null ? cutAround(shape, grounds) : [shape]))
    .map((shape) => inkedShape(shape, set))
    .filter(({ fill, stroke }) => fill !== null || stroke !== null);
}
