import { mapSteps, type DrawnWords, type Shape } from './shape.ts';
import type { TypeOutlines, TypeStyle } from './type-outlines.ts';

/** Words as shapes, to be searched for too, and the letters that no face of ours has. */
export interface Typeset {
  readonly shapes: readonly Shape[];
  readonly words: readonly DrawnWords[];
  readonly missing: string;
}

/** Where a text stands: on a baseline, from, around or up to `x`. */
interface TextPlace {
  readonly x: number;
  readonly y: number;
  readonly share: 0 | 0.5 | 1;
  /** The text is made smaller where it would not fit into this. */
  readonly room: number;
}

export const nothingSet: Typeset = { shapes: [], words: [], missing: '' };

/** A text in one ink. */
export async function typeset(
  text: string,
  style: TypeStyle,
  place: TextPlace,
  colour: string,
  outlines: TypeOutlines,
): Promise<Typeset> {
  if (text === '') return nothingSet;
  const { steps, width, missing } = await outlines.outlined(text, style);
  const scale = width > place.room ? place.room / width : 1;
  const x = place.x - place.share * width * scale;
  const outline = mapSteps(steps, { a: scale, b: 0, c: 0, d: scale, e: x, f: place.y });
  return {
    shapes: [{ steps: outline, fill: { kind: 'plain', colour }, stroke: null, opacity: 1, tag: null }],
    words: [{ text, x, y: place.y, size: style.size * scale }],
    missing,
  };
}

/** Several texts as one. */
export const together = (parts: readonly Typeset[]): Typeset => ({
  shapes: parts.flatMap(({ shapes }) => shapes),
  words: parts.flatMap(({ words }) => words),
  missing: parts.map(({ missing }) => missing).join(''),
});
