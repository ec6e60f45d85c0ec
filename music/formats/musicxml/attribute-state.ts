import { element, elementsOf, isElement, withAttributes, withChildren, type XmlElement } from '../xml/tree.ts';

/** What the attributes of a part say at a moment, each element under its name and the staff that it is for (empty for all). */
export type AttributeState = ReadonlyMap<string, XmlElement>;

/** The attributes in force before anything is said. */
export const noState: AttributeState = new Map();

/** The elements that stay in force until another of their kind, in the order that the schema asks for. **Source** MusicXML 4.0, attributes. */
const lasting: readonly string[] = [
  'divisions',
  'key',
  'time',
  'staves',
  'part-symbol',
  'instruments',
  'clef',
  'staff-details',
  'transpose',
  'for-part',
];

const rank = (name: string): number => lasting.indexOf(name);
const slot = ({ name, attributes }: XmlElement): string =>
  `${name} ${attributes['number'] ?? (name === 'clef' || name === 'staff-details' ? '1' : '')}`;

const detailsOrder = ['staff-type', 'staff-lines', 'line-detail', 'staff-tuning', 'capo', 'staff-size'];

/** Staff details as they stand after a change that may name only some of them. */
function mergedDetails(before: XmlElement, after: XmlElement): XmlElement {
  const changed = new Set(elementsOf(after).map(({ name }) => name));
  const kept = elementsOf(before).filter(({ name }) => !changed.has(name));
  const all = [...kept, ...elementsOf(after)].sort(
    (a, b) => detailsOrder.indexOf(a.name) - detailsOrder.indexOf(b.name),
  );
  return withChildren(withAttributes(before, after.attributes), all);
}

/** The state after an `<attributes>` element; the state before is left as it was. */
export function stateAfter(before: AttributeState, attributes: XmlElement): AttributeState {
  const after = new Map(before);
  for (const node of elementsOf(attributes)) {
    if (rank(node.name) < 0) continue;
    if (node.attributes['number'] === undefined) removeStaves(after, node.name);
    removeOther(after, node.name);
    const place = slot(node);
    const earlier = after.get(place);
    const isPartial = node.name === 'staff-details' && earlier !== undefined;
    after.set(place, isPartial ? mergedDetails(earlier, node) : node);
  }
  return after;
}

/** A key, meter or transposition for all staves replaces what single staves had. */
function removeStaves(state: Map<string, XmlElement>, name: string): void {
  if (name !== 'key' && name !== 'time' && name !== 'transpose') return;
  for (const place of [...state.keys()]) if (place.startsWith(`${name} `)) state.delete(place);
}

/** A part says how it is transposed in one of two ways. **Source** MusicXML 4.0, attributes: transpose or for-part. */
function removeOther(state: Map<string, XmlElement>, name: string): void {
  const other = name === 'transpose' ? 'for-part' : name === 'for-part' ? 'transpose' : null;
  if (other !== null) for (const place of [...state.keys()]) if (place.startsWith(`${other} `)) state.delete(place);
}

const withoutCancel = (key: XmlElement): XmlElement =>
  key.name === 'key'
    ? withChildren(
        key,
        key.children.filter((node) => !isElement(node, 'cancel')),
      )
    : key;

const staffOf = ({ attributes }: XmlElement): number => Number(attributes['number'] ?? 0);

/** One `<attributes>` element that puts a whole state in force, with what else it should carry last. */
export function attributesElement(state: AttributeState, others: readonly XmlElement[]): XmlElement {
  const sorted = [...state.values()].sort((a, b) => rank(a.name) - rank(b.name) || staffOf(a) - staffOf(b));
  const passing = ['directive', 'measure-style'].flatMap((name) => others.filter((other) => other.name === name));
  return element('attributes', {}, [...sorted.map(withoutCancel), ...passing]);
}

/** What an `<attributes>` element says about its own bar alone. */
export const passingAttributes = (attributes: XmlElement): XmlElement[] =>
  elementsOf(attributes).filter(({ name }) => rank(name) < 0 && name !== 'footnote' && name !== 'level');
