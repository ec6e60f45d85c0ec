import { childrenOf, elementsOf, type XmlElement } from '../xml/tree.ts';

/** Signs that a `<direction>` starts and a later one stops. */
const spanNames = new Set(['wedge', 'octave-shift', 'dashes', 'bracket', 'pedal']);

/** The directions that are open at a moment, by sign and number, and the number of the ending that is open. */
export interface OpenSpans {
  readonly directions: ReadonlyMap<string, XmlElement>;
  readonly ending: string | null;
}

/** Nothing open. */
export const noSpans: OpenSpans = { directions: new Map(), ending: null };

const spansIn = (direction: XmlElement): XmlElement[] =>
  childrenOf(direction, 'direction-type')
    .flatMap(elementsOf)
    .filter(({ name }) => spanNames.has(name));

/** What tells spans of one kind apart. */
const spanKey = (sign: XmlElement): string => `${sign.name} ${sign.attributes['number'] ?? '1'}`;

const isStop = (sign: XmlElement): boolean =>
  sign.attributes['type'] === 'stop' || sign.attributes['type'] === 'discontinue';
const isStart = (sign: XmlElement): boolean =>
  !isStop(sign) && !['continue', 'change', 'resume', 'sostenuto'].includes(sign.attributes['type'] ?? '');

function readDirection(direction: XmlElement, open: Map<string, XmlElement>): void {
  for (const sign of spansIn(direction)) {
    if (isStop(sign)) open.delete(spanKey(sign));
    else if (isStart(sign)) open.set(spanKey(sign), direction);
  }
}

function endingAfter(barline: XmlElement, before: string | null): string | null {
  const ending = childrenOf(barline, 'ending')[0];
  if (ending === undefined) return before;
  return ending.attributes['type'] === 'start' ? (ending.attributes['number'] ?? '1') : null;
}

/** What is open after a measure. */
export function spansAfter(before: OpenSpans, measure: XmlElement): OpenSpans {
  const directions = new Map(before.directions);
  let { ending } = before;
  for (const node of elementsOf(measure)) {
    if (node.name === 'direction') readDirection(node, directions);
    else if (node.name === 'barline') ending = endingAfter(node, ending);
  }
  return { directions, ending };
}

const signOf = (key: string, direction: XmlElement): XmlElement | undefined =>
  spansIn(direction).find((sign) => spanKey(sign) === key);

function directionWith(original: XmlElement, sign: XmlElement): XmlElement {
  const own = Object.entries(sign.attributes).filter(([name]) => name !== 'id');
  const nameless = { ...sign, attributes: Object.fromEntries(own) };
  const type: XmlElement = { ...original, name: 'direction-type', attributes: {}, children: [nameless] };
  const { placement } = original.attributes;
  const staff = childrenOf(original, 'staff');
  return { ...original, attributes: placement === undefined ? {} : { placement }, children: [type, ...staff] };
}

/** Directions that open again what was open before an excerpt begins. */
export function openingDirections(spans: OpenSpans): XmlElement[] {
  return [...spans.directions].flatMap(([key, direction]) => {
    const sign = signOf(key, direction);
    return sign === undefined ? [] : [directionWith(direction, sign)];
  });
}

/** Directions that stop what is still open where an excerpt ends. */
export function closingDirections(spans: OpenSpans): XmlElement[] {
  return [...spans.directions].flatMap(([key, direction]) => {
    const sign = signOf(key, direction);
    if (sign === undefined) return [];
    return [directionWith(direction, { ...sign, attributes: { ...sign.attributes, type: 'stop' } })];
  });
}
