import type { DrawnHead } from '../geometry.ts';
import { stepsOfEllipse, stepsOfPath, stepsOfRect } from './path-steps.ts';
import {
  mapSteps,
  scaleOf,
  type AffineMap,
  type DrawnWords,
  type Paint,
  type Shape,
  type ShapeTag,
  type Step,
  type Stroke,
} from './shape.ts';
import type { TypeOutlines, TypeStyle } from './type-outlines.ts';

/** What the page shows, as shapes without fonts or styles. */
export interface Collected {
  readonly shapes: readonly Shape[];
  readonly words: readonly DrawnWords[];
  readonly missing: string;
}

/** What is collected from and by what. */
export interface Collecting {
  /** The element whose corner is the drawing's. */
  readonly host: HTMLElement;
  readonly outlines: TypeOutlines;
  /** What each engraved element stands for. */
  readonly tagOf: (element: Element) => ShapeTag | null;
}

/** The tags of a strip's heads and numbers, by element; shapes within them share it. */
export function tagsOfHeads(
  heads: readonly DrawnHead[],
  linesOf: (head: DrawnHead) => readonly string[],
): (element: Element) => ShapeTag | null {
  const tags = new Map<Element, ShapeTag>();
  for (const head of heads)
    for (const element of head.elements) tags.set(element, { kind: head.kind, note: head.note, lines: linesOf(head) });
  return (element) => {
    const own = tags.get(element) ?? tags.get(element.parentElement ?? element);
    if (own !== undefined) return own;
    if (element.tagName === 'ellipse' && element.closest('button') !== null) return { kind: 'eye' };
    return element.tagName === 'rect' && element.closest('.vf-tabnote') !== null ? { kind: 'ground' } : null;
  };
}

const attribute = (element: Element, name: string): number => Number.parseFloat(element.getAttribute(name) ?? '0') || 0;

/** An element's outline in its own coordinates; null for what has none. */
function outlineOf(element: Element): readonly Step[] | null {
  const at = (name: string): number => attribute(element, name);
  switch (element.tagName) {
    case 'path':
      return stepsOfPath(element.getAttribute('d') ?? '');
    case 'rect':
      return stepsOfRect(at('x'), at('y'), at('width'), at('height'));
    case 'circle':
      return stepsOfEllipse(at('cx'), at('cy'), at('r'), at('r'));
    case 'ellipse':
      return stepsOfEllipse(at('cx'), at('cy'), at('rx'), at('ry'));
    case 'line':
      return stepsOfPath(`M${at('x1')} ${at('y1')}L${at('x2')} ${at('y2')}`);
    case 'polygon':
      return stepsOfPath(`M${element.getAttribute('points') ?? ''}Z`);
    case 'polyline':
      return stepsOfPath(`M${element.getAttribute('points') ?? ''}`);
    default:
      return null;
  }
}

/** A computed colour as `#rrggbb` with its opacity; null where nothing is painted. */
function colourOf(computed: string): { readonly colour: string; readonly opacity: number } | null {
  const numbers = /^rgba?\(([^)]*)\)$/
    .exec(computed)?.[1]
    ?.split(/[\s,/]+/)
    .map(Number);
  if (numbers === undefined) return null;
  const [red = 0, green = 0, blue = 0, opacity = 1] = numbers;
  if (opacity === 0) return null;
  const hex = [red, green, blue].map((value) => Math.round(value).toString(16).padStart(2, '0')).join('');
  return { colour: `#${hex}`, opacity };
}

/** A gradient of ours, which is always two halves of its shape's box. */
function halvesOf(computed: string, element: Element, map: AffineMap): Paint | null {
  const id = /url\("?#([^")]+)"?\)/.exec(computed)?.[1];
  const gradient = id === undefined ? null : element.ownerDocument.getElementById(id);
  const colours = [...(gradient?.querySelectorAll('stop') ?? [])].map(
    (stop) => colourOf(getComputedStyle(stop).stopColor)?.colour,
  );
  const [left, right] = colours;
  if (left === undefined || right === undefined) return null;
  const box = (element as SVGGraphicsElement).getBBox();
  return { kind: 'halves', left, right, middleX: map.a * (box.x + box.width / 2) + map.e };
}

function fillOf(style: CSSStyleDeclaration, element: Element, map: AffineMap): Paint | null {
  if (style.fill.startsWith('url')) return halvesOf(style.fill, element, map);
  const found = colourOf(style.fill);
  return found === null || Number(style.fillOpacity) === 0 ? null : { kind: 'plain', colour: found.colour };
}

function strokeOf(style: CSSStyleDeclaration, element: Element, map: AffineMap): Stroke | null {
  const found = colourOf(style.stroke);
  const width = Number.parseFloat(style.strokeWidth) * scaleOf(map);
  if (found === null || !(width > 0) || Number(style.strokeOpacity) === 0) return null;
  const isMeasured = element.hasAttribute('pathLength') && element instanceof SVGGeometryElement;
  const unit = isMeasured ? element.getTotalLength() / attribute(element, 'pathLength') : 1;
  const dash =
    style.strokeDasharray === 'none'
      ? []
      : style.strokeDasharray.split(/[\s,]+/).map((length) => Number.parseFloat(length) * unit * scaleOf(map));
  return { colour: found.colour, width, dash, isRound: style.strokeLinecap === 'round' };
}

function typeStyleOf(style: CSSStyleDeclaration, map: AffineMap): TypeStyle {
  return {
    family: /newsreader/i.test(style.fontFamily) ? 'serif' : 'sans',
    isItalic: style.fontStyle !== 'normal',
    weight: Number(style.fontWeight) || 400,
    size: Number.parseFloat(style.fontSize) * scaleOf(map),
  };
}

const anchorShare: Readonly<Record<string, number>> = { start: 0, middle: 0.5, end: 1 };

interface Seen {
  readonly element: Element;
  readonly map: AffineMap;
  readonly style: CSSStyleDeclaration;
  readonly opacity: number;
}

/** Every element that may paint, in painting order, with its map to the host's corner. */
function* seenIn(root: Element, corner: DOMRect, opacity: number): Generator<Seen> {
  for (const element of root.children) {
    if (['defs', 'title', 'style'].includes(element.tagName)) continue;
    const style = getComputedStyle(element);
    const faint = opacity * Number(style.opacity);
    if (style.display === 'none' || faint === 0) continue;
    const matrix = element instanceof SVGGraphicsElement ? element.getScreenCTM() : null;
    if (matrix !== null && style.visibility !== 'hidden') {
      const { a, b, c, d, e, f } = matrix;
      yield { element, map: { a, b, c, d, e: e - corner.x, f: f - corner.y }, style, opacity: faint };
    }
    yield* seenIn(element, corner, faint);
  }
}

/** All that an element shows, as shapes; its letters become outlines. */
export async function collectShapes({ host, outlines, tagOf }: Collecting): Promise<Collected> {
  const shapes: Shape[] = [];
  const words: DrawnWords[] = [];
  let missing = '';
  for (const seen of seenIn(host, host.getBoundingClientRect(), 1)) {
    const { element, map, style, opacity } = seen;
    const fill = fillOf(style, element, map);
    const tag = tagOf(element);
    if (element.tagName === 'text' || element.tagName === 'tspan') {
      const text = ownText(element);
      if (text === '' || fill === null) continue;
      const type = typeStyleOf(style, map);
      const outlined = await outlines.outlined(text, type);
      missing += outlined.missing;
      const x = map.a * attribute(element, 'x') + map.c * attribute(element, 'y') + map.e;
      const y = map.b * attribute(element, 'x') + map.d * attribute(element, 'y') + map.f;
      const left = x - (anchorShare[style.textAnchor] ?? 0) * outlined.width;
      const steps = mapSteps(outlined.steps, { a: 1, b: 0, c: 0, d: 1, e: left, f: y });
      shapes.push({ steps, fill, stroke: null, opacity, tag });
      words.push({ text, x: left, y, size: type.size });
      continue;
    }
    const outline = outlineOf(element);
    const stroke = outline === null ? null : strokeOf(style, element, map);
    if (outline === null || outline.length === 0 || (fill === null && stroke === null)) continue;
    shapes.push({ steps: mapSteps(outline, map), fill, stroke, opacity, tag });
  }
  return { shapes, words, missing };
}

/** The text that stands in an element itself, not in a part of it. */
const ownText = (element: Element): string =>
  [...element.childNodes]
    .filter((node) => node.nodeType === Node.TEXT_NODE)
    .map((node) => node.textContent ?? '')
    .join('')
    .trim();
