/** One step of an outline, in the coordinates of its drawing. */
export type Step =
  | readonly ['M' | 'L', number, number]
  | readonly ['C', number, number, number, number, number, number]
  | readonly ['Z'];

/** A plain colour `#rrggbb`, or two colours side by side that meet at `middleX`. */
export type Paint =
  | { readonly kind: 'plain'; readonly colour: string }
  | { readonly kind: 'halves'; readonly left: string; readonly right: string; readonly middleX: number };

/** How an outline is drawn along. */
export interface Stroke {
  readonly colour: string;
  readonly width: number;
  readonly dash: readonly number[];
  readonly isRound: boolean;
}

/** What a shape stands for: a note's head or fret number, the ground behind a number, a line's eye, or nothing in particular. */
export type ShapeTag =
  | { readonly kind: 'head' | 'digit'; readonly note: string; readonly lines: readonly string[] }
  | { readonly kind: 'ground' | 'eye' };

/** One outline with its paint; all that is left of an engraved element. */
export interface Shape {
  readonly steps: readonly Step[];
  readonly fill: Paint | null;
  readonly stroke: Stroke | null;
  readonly opacity: number;
  readonly tag: ShapeTag | null;
}

/** A text as it can be searched for; its letters are among the shapes. */
export interface DrawnWords {
  readonly text: string;
  readonly x: number;
  readonly y: number;
  readonly size: number;
}

/** A picture without fonts, styles or references: shapes in painting order. **Units** pixels. */
export interface Drawing {
  readonly width: number;
  readonly height: number;
  readonly shapes: readonly Shape[];
  readonly words: readonly DrawnWords[];
}

/** A rectangle that holds an outline's points and handles. */
export interface Extent {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

const pointsOf = (step: Step): readonly (readonly [number, number])[] => {
  if (step[0] === 'Z') return [];
  if (step[0] === 'C')
    return [
      [step[1], step[2]],
      [step[3], step[4]],
      [step[5], step[6]],
    ];
  return [[step[1], step[2]]];
};

/** The extent of an outline; null for an empty one. */
export function extentOf(steps: readonly Step[]): Extent | null {
  const points = steps.flatMap(pointsOf);
  if (points.length === 0) return null;
  const xs = points.map(([x]) => x);
  const ys = points.map(([, y]) => y);
  return { left: Math.min(...xs), top: Math.min(...ys), right: Math.max(...xs), bottom: Math.max(...ys) };
}

/** A plane's affine map, as SVG writes it: x' = ax + cy + e, y' = bx + dy + f. */
export interface AffineMap {
  readonly a: number;
  readonly b: number;
  readonly c: number;
  readonly d: number;
  readonly e: number;
  readonly f: number;
}

const mapped = ({ a, b, c, d, e, f }: AffineMap, x: number, y: number): readonly [number, number] => [
  a * x + c * y + e,
  b * x + d * y + f,
];

/** An outline under a map. */
export const mapSteps = (steps: readonly Step[], map: AffineMap): readonly Step[] =>
  steps.map((step): Step => {
    if (step[0] === 'Z') return step;
    if (step[0] === 'C')
      return [
        'C',
        ...mapped(map, step[1], step[2]),
        ...mapped(map, step[3], step[4]),
        ...mapped(map, step[5], step[6]),
      ];
    return [step[0], ...mapped(map, step[1], step[2])];
  });

/** How much a map enlarges lengths, on average over directions. */
export const scaleOf = ({ a, b, c, d }: AffineMap): number => Math.sqrt(Math.abs(a * d - b * c));

/** A shape moved and enlarged as a whole. */
export function placeShape(shape: Shape, x: number, y: number, scale: number): Shape {
  const { fill, stroke } = shape;
  return {
    ...shape,
    steps: mapSteps(shape.steps, { a: scale, b: 0, c: 0, d: scale, e: x, f: y }),
    fill: fill?.kind === 'halves' ? { ...fill, middleX: fill.middleX * scale + x } : fill,
    stroke:
      stroke === null
        ? null
        : { ...stroke, width: stroke.width * scale, dash: stroke.dash.map((length) => length * scale) },
  };
}

/** Words moved and enlarged with their shapes. */
export const placeWords = (words: DrawnWords, x: number, y: number, scale: number): DrawnWords => ({
  text: words.text,
  x: words.x * scale + x,
  y: words.y * scale + y,
  size: words.size * scale,
});
