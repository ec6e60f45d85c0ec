import { arcSteps } from './arc-steps.ts';
import type { Step } from './shape.ts';

interface Pen {
  x: number;
  y: number;
  startX: number;
  startY: number;
  /** The handle that a smooth curve mirrors. */
  handleX: number;
  handleY: number;
  last: string;
}

const argumentCounts: Readonly<Record<string, number>> = { M: 2, L: 2, H: 1, V: 1, C: 6, S: 4, Q: 4, T: 2, A: 7, Z: 0 };
const token = /([MLHVCSQTAZ])|([-+]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?)/gi;

interface Order {
  readonly letter: string;
  readonly isRelative: boolean;
  readonly values: readonly number[];
}

/** The orders of path data, one for each set of arguments; what follows an incomplete one is left out, as SVG asks. */
function ordersOf(data: string): readonly Order[] {
  const orders: Order[] = [];
  let letter = '';
  let values: number[] = [];
  const flush = (): void => {
    orders.push({ letter: letter.toUpperCase(), isRelative: letter === letter.toLowerCase(), values });
    values = [];
    if (letter === 'M') letter = 'L';
    if (letter === 'm') letter = 'l';
  };
  for (const [, word, number] of data.matchAll(token)) {
    if (word !== undefined) {
      letter = word;
      values = [];
      if (word.toUpperCase() === 'Z') flush();
    } else if (letter !== '') {
      values.push(Number(number));
      if (values.length === argumentCounts[letter.toUpperCase()]) flush();
    }
  }
  return orders;
}

/** The values with relative points made absolute. */
function absolute({ letter, isRelative, values }: Order, pen: Pen): readonly number[] {
  if (!isRelative) return values;
  if (letter === 'H') return values.map((value) => value + pen.x);
  if (letter === 'V') return values.map((value) => value + pen.y);
  if (letter === 'A') return values.map((value, index) => value + (index === 5 ? pen.x : index === 6 ? pen.y : 0));
  return values.map((value, index) => value + (index % 2 === 0 ? pen.x : pen.y));
}

const cubicOfQuadratic = (pen: Pen, hx: number, hy: number, x: number, y: number): Step => [
  'C',
  pen.x + (2 / 3) * (hx - pen.x),
  pen.y + (2 / 3) * (hy - pen.y),
  x + (2 / 3) * (hx - x),
  y + (2 / 3) * (hy - y),
  x,
  y,
];

const mirrored = (pen: Pen, after: string): readonly [number, number] =>
  after.includes(pen.last) ? [2 * pen.x - pen.handleX, 2 * pen.y - pen.handleY] : [pen.x, pen.y];

/** The steps of one order, and the handle that a smooth curve after it mirrors. */
function stepsOfOrder(
  letter: string,
  v: readonly number[],
  pen: Pen,
): { steps: readonly Step[]; handle?: readonly [number, number] } {
  const at = (index: number): number => v[index] ?? 0;
  switch (letter) {
    case 'M':
    case 'L':
      return { steps: [[letter, at(0), at(1)]] };
    case 'H':
      return { steps: [['L', at(0), pen.y]] };
    case 'V':
      return { steps: [['L', pen.x, at(0)]] };
    case 'C':
      return { steps: [['C', at(0), at(1), at(2), at(3), at(4), at(5)]], handle: [at(2), at(3)] };
    case 'S':
      return { steps: [['C', ...mirrored(pen, 'CS'), at(0), at(1), at(2), at(3)]], handle: [at(0), at(1)] };
    case 'Q':
      return { steps: [cubicOfQuadratic(pen, at(0), at(1), at(2), at(3))], handle: [at(0), at(1)] };
    case 'T': {
      const handle = mirrored(pen, 'QT');
      return { steps: [cubicOfQuadratic(pen, ...handle, at(0), at(1))], handle };
    }
    case 'A':
      return { steps: arcSteps({ x: pen.x, y: pen.y }, v) };
    default:
      return { steps: [['Z']] };
  }
}

function movePen(
  pen: Pen,
  letter: string,
  steps: readonly Step[],
  handle: readonly [number, number] | undefined,
): void {
  const last = steps.at(-1);
  if (last?.[0] === 'Z') Object.assign(pen, { x: pen.startX, y: pen.startY });
  else if (last?.[0] === 'C') Object.assign(pen, { x: last[5], y: last[6] });
  else if (last !== undefined) Object.assign(pen, { x: last[1], y: last[2] });
  if (letter === 'M') Object.assign(pen, { startX: pen.x, startY: pen.y });
  Object.assign(pen, { handleX: handle?.[0] ?? pen.x, handleY: handle?.[1] ?? pen.y, last: letter });
}

/** SVG path data as absolute lines and cubic curves. **Source** SVG 2, 9.3 path data. */
export function stepsOfPath(data: string): readonly Step[] {
  const pen: Pen = { x: 0, y: 0, startX: 0, startY: 0, handleX: 0, handleY: 0, last: '' };
  return ordersOf(data).flatMap((order) => {
    const { steps, handle } = stepsOfOrder(order.letter, absolute(order, pen), pen);
    movePen(pen, order.letter, steps, handle);
    return steps;
  });
}

/** A rectangle as an outline. */
export const stepsOfRect = (x: number, y: number, width: number, height: number): readonly Step[] => [
  ['M', x, y],
  ['L', x + width, y],
  ['L', x + width, y + height],
  ['L', x, y + height],
  ['Z'],
];

/** How far a handle stands from a quarter of a circle of radius 1: 4/3 (√2 − 1). */
const quarterHandle = (4 / 3) * (Math.SQRT2 - 1);

/** An ellipse as an outline of four curves. */
export function stepsOfEllipse(cx: number, cy: number, rx: number, ry: number): readonly Step[] {
  const hx = rx * quarterHandle;
  const hy = ry * quarterHandle;
  return [
    ['M', cx + rx, cy],
    ['C', cx + rx, cy + hy, cx + hx, cy + ry, cx, cy + ry],
    ['C', cx - hx, cy + ry, cx - rx, cy + hy, cx - rx, cy],
    ['C', cx - rx, cy - hy, cx - hx, cy - ry, cx, cy - ry],
    ['C', cx + hx, cy - ry, cx + rx, cy - hy, cx + rx, cy],
    ['Z'],
  ];
}
