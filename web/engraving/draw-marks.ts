import type { NoteId } from '../../music/index.ts';
import { middleOf, type Box, type DrawnHead, type DrawnStrip } from './geometry.ts';
import type { HitGrid } from './hit-grid.ts';
import type { Appearance, PeerMark, SheetLook } from './look.ts';
import { QuestionMarks } from './question-marks.ts';
import { svgElement } from './svg.ts';

/** What the marks of a strip are drawn from. */
export interface MarkInput {
  readonly strip: DrawnStrip;
  readonly grid: HitGrid<DrawnHead>;
  readonly look: SheetLook;
  readonly appearanceOf: (note: NoteId) => Appearance;
  readonly cursor: NoteId | null;
  readonly slice: readonly NoteId[];
}

/** Everything that is told in ink around notes: rings, loose ends, question marks, colleagues' flags. */
export function drawMarks(input: MarkInput): readonly SVGElement[] {
  const peers = new Map(input.look.peers.map((mark) => [mark.note, mark]));
  const marks: SVGElement[] = [...sliceMark(input)];
  const questions = new QuestionMarks(input.grid);
  const flags: SVGElement[] = [];
  const flagged = new Set<NoteId>();
  for (const head of input.strip.heads) {
    const appearance = input.appearanceOf(head.note);
    marks.push(...stateMarks(input, head, appearance, questions));
    const peer = peers.get(head.note);
    if (peer === undefined) continue;
    marks.push(...doubleRing(head.box, peer));
    if (!flagged.has(head.note)) flags.push(...flag(input, head.box, peer));
    flagged.add(head.note);
  }
  return [...marks, ...flags];
}

function stateMarks(
  input: MarkInput,
  head: DrawnHead,
  appearance: Appearance,
  questions: QuestionMarks,
): readonly SVGElement[] {
  const { look } = input;
  const marks: SVGElement[] = [];
  if (head.note === input.cursor) marks.push(cursorEye(head.box));
  if (look.selected.has(head.note)) marks.push(ring(head.box, 'chosen'));
  if (look.wouldFollow.has(head.note)) marks.push(ring(head.box, 'follow'));
  if (!look.tellsState || head.kind === 'digit') return marks;
  if (appearance.isLoose) marks.push(ring(head.box, 'loose'), looseEnd(head.box));
  else if (appearance.isUnsure) marks.push(questions.beside(head.box));
  return marks;
}

const ringLooks = {
  chosen: { 'stroke-width': 2 },
  follow: { 'stroke-width': 1.8, 'stroke-dasharray': '0.1 3.6', 'stroke-linecap': 'round' },
  loose: { 'stroke-width': 1.4, 'stroke-dasharray': '3 2.4' },
} as const;

function ring(box: Box, kind: keyof typeof ringLooks): SVGElement {
  const { x, y } = middleOf(box);
  const element = svgElement('ellipse', {
    cx: x,
    cy: y,
    rx: box.width / 2 + 5,
    ry: Math.max(box.height / 2 + 4.5, 8.5),
    fill: 'none',
    ...ringLooks[kind],
  });
  element.style.stroke = 'var(--ink)';
  return element;
}

function cursorEye(box: Box): SVGElement {
  const { x, y } = middleOf(box);
  const element = svgElement('ellipse', {
    cx: x,
    cy: y,
    rx: box.width / 2 + 6.5,
    ry: box.height / 2 + 12,
    fill: 'none',
    'stroke-width': 2.2,
  });
  element.style.stroke = 'var(--focus)';
  return element;
}

function looseEnd(box: Box): SVGElement {
  const { x, y } = middleOf(box);
  const element = svgElement('path', {
    d: `M${x + box.width / 2 + 4} ${y + 5}c6 1 5 7 10 9`,
    fill: 'none',
    'stroke-width': 1.4,
    'stroke-dasharray': '3 2.4',
  });
  element.style.stroke = 'var(--ink)';
  return element;
}

function doubleRing(box: Box, peer: PeerMark): readonly SVGElement[] {
  const { x, y } = middleOf(box);
  return [0, 3.6].map((more, index) => {
    const element = svgElement('ellipse', {
      cx: x,
      cy: y,
      rx: box.width / 2 + 5 + more,
      ry: Math.max(box.height / 2 + 4.5, 8.5) + more,
      fill: 'none',
      'stroke-width': index === 0 ? 1.8 : 1,
      class: peer.kind === 'fresh' ? 'heddle-fresh' : '',
    });
    element.style.stroke = `var(--peer-${peer.peer})`;
    return element;
  });
}

/** A colleague's name above the topmost staff, led to the note by a fine line, so that it hides nothing. */
function flag(input: MarkInput, box: Box, peer: PeerMark): readonly SVGElement[] {
  const { x, y } = middleOf(box);
  const width = peer.words.length * 6.6 + 14;
  const flagY = highestNear(input, x, width) - 24;
  const left = Math.max(2, Math.min(x - 6, input.strip.width - width - 2));
  const line = svgElement('path', {
    d: `M${x} ${y - box.height / 2 - 6}L${left + 8} ${flagY + 18}`,
    'stroke-width': 1.2,
  });
  line.style.stroke = `var(--peer-${peer.peer})`;
  const plate = svgElement('rect', { x: left, y: flagY, width, height: 19, rx: 1.5 });
  plate.style.fill = `var(--peer-${peer.peer})`;
  const text = svgElement('text', { x: left + 7, y: flagY + 13.6, class: 'heddle-flag' }, peer.words);
  return [svgElement('g', { class: peer.kind === 'fresh' ? 'heddle-fresh' : '' }, line, plate, text)];
}

function highestNear(input: MarkInput, x: number, width: number): number {
  const near = input.strip.heads.filter((head) => head.kind === 'head' && Math.abs(head.box.x - x) < width);
  const top = Math.min(input.strip.systems[0]?.top ?? 40, ...near.map((head) => head.box.y - 34));
  return Math.max(26, top);
}

/** The upright eye around everything that starts together. */
function sliceMark(input: MarkInput): readonly SVGElement[] {
  if (input.slice.length < 1) return [];
  const wanted = new Set(input.slice);
  const boxes = input.strip.heads.filter((head) => wanted.has(head.note)).map((head) => head.box);
  if (boxes.length === 0) return [];
  const left = Math.min(...boxes.map((box) => box.x));
  const right = Math.max(...boxes.map((box) => box.x + box.width));
  const top = Math.min(...boxes.map((box) => box.y));
  const bottom = Math.max(...boxes.map((box) => box.y + box.height));
  const element = svgElement('ellipse', {
    cx: (left + right) / 2,
    cy: (top + bottom) / 2,
    rx: Math.min((right - left) / 2 + 9, 22),
    ry: (bottom - top) / 2 + 20,
    fill: 'none',
    'stroke-width': 1.2,
  });
  element.style.stroke = 'var(--edge)';
  return [element];
}
