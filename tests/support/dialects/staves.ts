import {
  childOf,
  childrenOf,
  childText,
  element,
  isElement,
  withAttributes,
  withChildren,
  type XmlElement,
  type XmlNode,
} from '../../../music/formats/xml/tree.ts';
import { editAll, leaf, staffOf, without } from './edit-tree.ts';

const staffed = new Set(['clef', 'staff-details']);

/** The attributes of one staff alone, as the first and only staff of a part. */
function attributesOfStaff(attributes: XmlElement, staff: number): XmlElement {
  return withChildren(
    without(attributes, 'staves'),
    without(attributes, 'staves').children.flatMap((node): readonly XmlNode[] => {
      if (!isElement(node) || !staffed.has(node.name)) return [node];
      if (staffOf(node) !== staff) return [];
      const others = Object.fromEntries(Object.entries(node.attributes).filter(([name]) => name !== 'number'));
      return [{ ...node, attributes: others }];
    }),
  );
}

const durationOf = (node: XmlElement): number => Number(childText(node, 'duration') || 0);

/** The notes of one staff of a measure, voice after voice, each beginning with the bar. */
function measureOfStaff(measure: XmlElement, staff: number): XmlElement {
  const kept: XmlNode[] = [];
  let cursor = 0;
  let written = 0;
  const moveTo = (target: number): void => {
    const name = target > written ? 'forward' : 'backup';
    if (target !== written) kept.push(element(name, {}, [leaf('duration', Math.abs(target - written))]));
    written = target;
  };
  for (const node of measure.children) {
    if (!isElement(node)) continue;
    if (node.name === 'backup') cursor -= durationOf(node);
    else if (node.name === 'forward') cursor += durationOf(node);
    else if (node.name === 'attributes') kept.push(attributesOfStaff(node, staff));
    else if (node.name !== 'note') {
      if (node.name === 'barline' || staff === 1) {
        moveTo(cursor);
        kept.push(without(node, 'staff'));
      }
    } else {
      const isChordMember = childOf(node, 'chord') !== undefined;
      if (staffOf(node) === staff) {
        if (!isChordMember) moveTo(cursor);
        kept.push(without(node, 'staff'));
        if (!isChordMember) written += durationOf(node);
      }
      if (!isChordMember) cursor += durationOf(node);
    }
  }
  return withChildren(measure, kept);
}

function partOfStaff(part: XmlElement, staff: number, id: string): XmlElement {
  return withAttributes(
    withChildren(
      part,
      childrenOf(part, 'measure').map((measure) => measureOfStaff(measure, staff)),
    ),
    { id },
  );
}

const scorePart = (id: string, name: string): XmlElement => element('score-part', { id }, [leaf('part-name', name)]);

function withParts(
  root: XmlElement,
  names: readonly (readonly [string, string])[],
  parts: readonly XmlElement[],
): XmlElement {
  const header = root.children.filter((node) => !isElement(node, 'part') && !isElement(node, 'part-list'));
  const list = element(
    'part-list',
    {},
    names.map(([id, name]) => scorePart(id, name)),
  );
  return withChildren(root, [...header, list, ...parts]);
}

const onlyPart = (root: XmlElement): XmlElement => childrenOf(root, 'part')[0]!;

/** The tablature as a part of its own, after the notation. */
export const tablatureAsPart = (root: XmlElement): XmlElement =>
  withParts(
    root,
    [
      ['P1', 'Guitar'],
      ['P2', 'Guitar (tablature)'],
    ],
    [withoutStrings(partOfStaff(onlyPart(root), 1, 'P1')), partOfStaff(onlyPart(root), 2, 'P2')],
  );

/** The tablature without any notation. */
export const tablatureAlone = (root: XmlElement): XmlElement =>
  withParts(root, [['P1', 'Guitar']], [partOfStaff(onlyPart(root), 2, 'P1')]);

/** The notation without any tablature, string or fret. */
export const notationAlone = (root: XmlElement): XmlElement =>
  withParts(root, [['P1', 'Guitar']], [withoutStrings(partOfStaff(onlyPart(root), 1, 'P1'))]);

/** The same music without string and fret numbers. */
const withoutStrings = (root: XmlElement): XmlElement => editAll(root, 'technical', () => []);
