import {
  childOf,
  childrenOf,
  childText,
  element,
  elementsOf,
  isElement,
  textOf,
  withChildren,
  type XmlElement,
} from '../../../music/formats/xml/tree.ts';
import { editAll, leaf, staffOf, without } from './edit-tree.ts';

const durationOf = (node: XmlElement): number => Number(childText(node, 'duration') || 0);
const heightOf = (note: XmlElement): string => {
  const drawn = childOf(note, 'pitch') ?? childOf(note, 'unpitched') ?? note;
  return [drawn.name, childText(note, 'notehead'), ...elementsOf(drawn).map(textOf)].join(' ');
};
const stopsTie = (note: XmlElement): boolean =>
  childrenOf(note, 'tie').some((tie) => tie.attributes['type'] === 'stop');

/** What is struck in one staff of a measure, by its distance from the bar's start, each height once. */
function struckIn(measure: XmlElement, staff: number): Map<number, XmlElement[]> {
  const struck = new Map<number, XmlElement[]>();
  let cursor = 0;
  let chordStart = 0;
  for (const node of elementsOf(measure)) {
    if (node.name === 'backup') cursor -= durationOf(node);
    if (node.name === 'forward') cursor += durationOf(node);
    if (node.name !== 'note') continue;
    const isChordMember = childOf(node, 'chord') !== undefined;
    const at = isChordMember ? chordStart : cursor;
    if (!isChordMember) {
      chordStart = cursor;
      cursor += durationOf(node);
    }
    if (staffOf(node) !== staff || childOf(node, 'rest') !== undefined || stopsTie(node)) continue;
    const chord = struck.get(at) ?? [];
    if (!chord.some((note) => heightOf(note) === heightOf(node))) struck.set(at, [...chord, node]);
  }
  return struck;
}

function lengthOf(measure: XmlElement): number {
  let cursor = 0;
  let longest = 0;
  for (const node of elementsOf(measure)) {
    if (node.name === 'backup') cursor -= durationOf(node);
    else if (node.name === 'forward' || (node.name === 'note' && childOf(node, 'chord') === undefined))
      cursor += durationOf(node);
    longest = Math.max(longest, cursor);
  }
  return longest;
}

function plainNote(note: XmlElement, duration: number, isChordMember: boolean, staff: number): XmlElement {
  const kept = without(
    note,
    'chord',
    'duration',
    'tie',
    'type',
    'dot',
    'accidental',
    'time-modification',
    'stem',
    'beam',
    'voice',
    'staff',
  );
  const technical = childrenOf(note, 'notations').flatMap((notations) => childrenOf(notations, 'technical'));
  const body = elementsOf(without(kept, 'notations', 'notehead'));
  return withChildren(note, [
    ...(isChordMember ? [element('chord')] : []),
    ...body,
    leaf('duration', duration),
    leaf('voice', staff),
    ...childrenOf(note, 'notehead'),
    leaf('staff', staff),
    ...(technical.length === 0 ? [] : [element('notations', {}, technical)]),
  ]);
}

const rest = (duration: number, staff: number): XmlElement =>
  element('note', {}, [element('rest'), leaf('duration', duration), leaf('voice', staff), leaf('staff', staff)]);

function staffInOneVoice(measure: XmlElement, staff: number, length: number): XmlElement[] {
  const struck = [...struckIn(measure, staff)].sort(([a], [b]) => a - b);
  const first = struck[0]?.[0] ?? length;
  const lead = first > 0 ? [rest(first, staff)] : [];
  return [
    ...lead,
    ...struck.flatMap(([at, notes], index) => {
      const duration = (struck[index + 1]?.[0] ?? length) - at;
      return notes.map((note, member) => plainNote(note, duration, member > 0, staff));
    }),
  ];
}

/** Everything of a staff in one voice: what is struck together is one chord that lasts until the next. Lengths and ties are lost. */
export function inOneVoice(root: XmlElement): XmlElement {
  return editAll(root, 'measure', (measure) => {
    const length = lengthOf(measure);
    const barlines = measure.children.filter((node) => isElement(node, 'barline'));
    const isLeft = (node: XmlElement): boolean => node.attributes['location'] === 'left';
    const attributes = childrenOf(measure, 'attributes');
    const backup = element('backup', {}, [leaf('duration', length)]);
    return [
      withChildren(measure, [
        ...barlines.filter((node) => isElement(node) && isLeft(node)),
        ...attributes,
        ...staffInOneVoice(measure, 1, length),
        backup,
        ...staffInOneVoice(measure, 2, length),
        ...barlines.filter((node) => isElement(node) && !isLeft(node)),
      ]),
    ];
  });
}
