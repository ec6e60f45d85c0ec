import type { NoteId } from '../../music/index.ts';
import type { Box } from './geometry.ts';
import styles from './sheet.module.css';
import type { Strip } from './strip.ts';
import { svgElement } from './svg.ts';

/** What a pointer does to a sheet. */
export interface PointerDeeds {
  /** A press and release on one note. */
  readonly onPick: (note: NoteId, event: PointerEvent) => void;
  /** Two presses on one note, one soon after the other; each has been a pick. */
  readonly onTwice: (note: NoteId) => void;
  /** Notes that the pressed pointer newly passed, on their way to being painted. */
  readonly onStroke: (notes: readonly NoteId[]) => void;
  readonly onStrokeEnd: () => void;
  /** Every note within a loop that was drawn on open ground. */
  readonly onLasso: (notes: readonly NoteId[], event: PointerEvent) => void;
  readonly onHover: (note: NoteId | null) => void;
  readonly onGround: () => void;
}

interface Point {
  readonly x: number;
  readonly y: number;
}

type Gesture =
  | {
      readonly kind: 'note';
      readonly note: NoteId;
      readonly at: Point;
      isStroke: boolean;
      last: Point;
      readonly passed: Set<NoteId>;
    }
  | { readonly kind: 'ground'; readonly at: Point; readonly points: Point[]; readonly path: SVGPathElement };

/** Watches the pointer over a sheet: clicks, strokes across heads, loops around them. */
export class SheetPointer {
  readonly #root: HTMLElement;
  readonly #strips: () => readonly Strip[];
  readonly #deeds: PointerDeeds;
  readonly #loops = svgElement('svg', { class: styles['lasso'] ?? '', 'aria-hidden': 'true' });
  readonly #ended = new AbortController();
  #gesture: Gesture | null = null;
  #hovered: NoteId | null = null;

  constructor(root: HTMLElement, strips: () => readonly Strip[], deeds: PointerDeeds) {
    this.#root = root;
    this.#strips = strips;
    this.#deeds = deeds;
    root.append(this.#loops);
    const { signal } = this.#ended;
    root.addEventListener('pointerdown', (event) => this.#down(event), { signal });
    root.addEventListener('pointermove', (event) => this.#move(event), { signal });
    root.addEventListener('pointerup', (event) => this.#up(event), { signal });
    root.addEventListener('dblclick', (event) => this.#twice(event), { signal });
    root.addEventListener('pointercancel', () => this.#cancel(), { signal });
    root.addEventListener('pointerleave', () => this.#hover(null), { signal });
  }

  destroy(): void {
    this.#ended.abort();
    this.#loops.remove();
  }

  #twice(event: MouseEvent): void {
    const note = this.#noteAt(this.#point(event));
    if (note !== null) this.#deeds.onTwice(note);
  }

  #point(event: MouseEvent): Point {
    const bounds = this.#root.getBoundingClientRect();
    return { x: event.clientX - bounds.left, y: event.clientY - bounds.top };
  }

  #noteAt(point: Point): NoteId | null {
    const strip = this.#strips().find((candidate) => contains(candidate, point.y));
    return strip?.grid.at(point.x - strip.inset, point.y - strip.element.offsetTop)?.note ?? null;
  }

  #down(event: PointerEvent): void {
    if (event.button !== 0 || (event.target as Element).closest('button') !== null) return;
    const at = this.#point(event);
    const note = this.#noteAt(at);
    if (note !== null) {
      this.#gesture = { kind: 'note', note, at, isStroke: false, last: at, passed: new Set([note]) };
    } else if (event.pointerType !== 'touch') {
      this.#gesture = { kind: 'ground', at, points: [at], path: svgElement('path') };
    } else return;
    if (event.pointerType !== 'touch') this.#root.setPointerCapture(event.pointerId);
  }

  #move(event: PointerEvent): void {
    const gesture = this.#gesture;
    const at = this.#point(event);
    if (gesture === null) {
      if (event.pointerType !== 'touch') this.#hover(this.#noteAt(at));
      return;
    }
    if (gesture.kind === 'note') this.#stroke(gesture, at);
    else if (far(gesture.at, at, 6)) this.#loop(gesture, at);
  }

  #stroke(gesture: Gesture & { readonly kind: 'note' }, at: Point): void {
    if (!gesture.isStroke && far(gesture.at, at, 8)) {
      gesture.isStroke = true;
      this.#deeds.onStroke([gesture.note]);
    }
    if (!gesture.isStroke) return;
    const fresh: NoteId[] = [];
    for (const strip of this.#strips()) {
      const { offsetTop } = strip.element;
      if (!contains(strip, gesture.last.y) && !contains(strip, at.y)) continue;
      for (const head of strip.grid.along(
        gesture.last.x - strip.inset,
        gesture.last.y - offsetTop,
        at.x - strip.inset,
        at.y - offsetTop,
      )) {
        if (!gesture.passed.has(head.note)) fresh.push(head.note);
        gesture.passed.add(head.note);
      }
    }
    gesture.last = at;
    if (fresh.length > 0) this.#deeds.onStroke(fresh);
  }

  #loop(gesture: Gesture & { readonly kind: 'ground' }, at: Point): void {
    gesture.points.push(at);
    if (!gesture.path.isConnected) this.#loops.append(gesture.path);
    gesture.path.setAttribute('d', `M${gesture.points.map((point) => `${point.x} ${point.y}`).join('L')}Z`);
  }

  #up(event: PointerEvent): void {
    const gesture = this.#gesture;
    this.#cancel();
    if (gesture === null) return;
    if (gesture.kind === 'note') {
      if (gesture.isStroke) this.#deeds.onStrokeEnd();
      else this.#deeds.onPick(gesture.note, event);
      return;
    }
    if (gesture.points.length < 4) this.#deeds.onGround();
    else this.#deeds.onLasso(this.#notesWithin(gesture.points), event);
  }

  #cancel(): void {
    if (this.#gesture?.kind === 'ground') this.#gesture.path.remove();
    this.#gesture = null;
  }

  #notesWithin(loop: readonly Point[]): readonly NoteId[] {
    const found = new Set<NoteId>();
    for (const strip of this.#strips()) {
      for (const head of strip.drawn?.heads ?? []) {
        if (isWithin(loop, middleOnSheet(strip, head.box))) found.add(head.note);
      }
    }
    return [...found];
  }

  #hover(note: NoteId | null): void {
    if (note === this.#hovered) return;
    this.#hovered = note;
    this.#root.style.cursor = note === null ? '' : 'pointer';
    this.#deeds.onHover(note);
  }
}

const far = (a: Point, b: Point, pixels: number): boolean => Math.abs(a.x - b.x) + Math.abs(a.y - b.y) > pixels;

const contains = (strip: Strip, y: number): boolean =>
  y >= strip.element.offsetTop && y < strip.element.offsetTop + strip.element.offsetHeight;

const middleOnSheet = (strip: Strip, box: Box): Point => ({
  x: strip.inset + box.x + box.width / 2,
  y: strip.element.offsetTop + box.y + box.height / 2,
});

/** Whether a point lies within a closed loop, by the even-odd rule. */
export function isWithin(loop: readonly Point[], point: Point): boolean {
  let inside = false;
  loop.forEach((to, index) => {
    const from = loop.at(index - 1) as Point;
    const crosses = to.y > point.y !== from.y > point.y;
    if (crosses && point.x < ((from.x - to.x) * (point.y - to.y)) / (from.y - to.y) + to.x) inside = !inside;
  });
  return inside;
}
