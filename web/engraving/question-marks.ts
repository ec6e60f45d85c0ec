import { middleOf, type Box, type DrawnHead } from './geometry.ts';
import type { HitGrid } from './hit-grid.ts';
import { svgElement } from './svg.ts';

const radius = 6.5;

interface Point {
  readonly x: number;
  readonly y: number;
}

/** Where a mark may stand, seen from the middle of its head, from the best place to the last. */
const offsets: readonly Point[] = [
  { x: 0, y: 19.5 },
  { x: 0, y: -19.5 },
  { x: 17, y: 6 },
  { x: -17, y: 6 },
  { x: 16, y: -11 },
  { x: -16, y: -11 },
  { x: 30, y: 4 },
  { x: -30, y: 4 },
];

/** The question marks of a strip: each beside its note, at the first place where it hides no head and no other mark. */
export class QuestionMarks {
  readonly #grid: HitGrid<DrawnHead>;
  readonly #taken: Point[] = [];

  constructor(grid: HitGrid<DrawnHead>) {
    this.#grid = grid;
  }

  /** A question mark for a head. */
  beside(head: Box): SVGElement {
    const { x, y } = middleOf(head);
    const places = offsets.map((offset) => ({ x: x + offset.x, y: y + offset.y }));
    const place = places.find((one) => this.#isFree(one)) ?? { x, y: y + 19.5 };
    this.#taken.push(place);
    const circle = svgElement('circle', { cx: place.x, cy: place.y, r: radius, 'stroke-width': 1.2 });
    circle.style.fill = 'var(--paper)';
    circle.style.stroke = 'var(--ink)';
    const text = svgElement(
      'text',
      { x: place.x, y: place.y + 3.9, 'text-anchor': 'middle', class: 'heddle-unsure' },
      '?',
    );
    return svgElement('g', { 'data-unsure': '' }, circle, text);
  }

  #isFree({ x, y }: Point): boolean {
    const hidden = this.#grid.within({ x: x - radius, y: y - radius, width: 2 * radius, height: 2 * radius });
    return hidden.length === 0 && this.#taken.every((mark) => Math.hypot(mark.x - x, mark.y - y) >= 2 * radius);
  }
}
