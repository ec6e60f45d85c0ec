import type { Issue, WithIssues } from '../../basis/issue.ts';
import { limits } from '../limits.ts';
import {
  childOf,
  childrenOf,
  childText,
  element,
  elementsOf,
  isElement,
  numberOf,
  textOf,
  withChildren,
  type XmlElement,
  type XmlNode,
} from '../xml/tree.ts';

/** A sign that a bar, or a group of bars, is to be played as the one before it. */
interface RepeatSign {
  readonly barCount: number;
  /** The measure that it first stands in. */
  readonly from: number;
}

/** The signs that are open, by the staff that they are for; 0 is all staves. */
type OpenSigns = ReadonlyMap<number, RepeatSign>;

/** The printed numbers of the bars that were filled, and of those that could not be. */
interface Found {
  readonly filled: string[];
  readonly unfilled: string[];
  /** How many notes may still be added. */
  notesLeft: number;
}

/** The signs that a measure is under, and those that the next one begins with. A stop is for its own measure where it stands at the start of it, else for the next. */
function signsAt(before: OpenSigns, measure: XmlElement, index: number): { here: OpenSigns; after: OpenSigns } {
  const here = new Map(before);
  const after = new Map(before);
  let isAtStart = true;
  for (const node of elementsOf(measure)) {
    isAtStart &&= node.name !== 'note' && node.name !== 'forward';
    if (node.name !== 'attributes') continue;
    for (const style of childrenOf(node, 'measure-style')) {
      const sign = childOf(style, 'measure-repeat');
      if (sign === undefined) continue;
      const staff = Number(style.attributes['number'] ?? 0) || 0;
      const opened = { barCount: Math.max(1, Math.min(16, Math.round(numberOf(sign) ?? 1))), from: index };
      if (sign.attributes['type'] !== 'stop') for (const signs of [here, after]) signs.set(staff, opened);
      else {
        after.delete(staff);
        if (isAtStart && here.get(staff)?.from !== index) here.delete(staff);
      }
    }
  }
  for (const staff of here.keys()) if (elementsOf(measure).some((own) => isStruck(own, staff))) after.delete(staff);
  return { here, after };
}

const staffOf = (note: XmlElement): number => Number(textOf(childOf(note, 'staff'))) || 1;
const isOn = (note: XmlElement, staff: number): boolean => staff === 0 || staffOf(note) === staff;
const isStruck = (note: XmlElement, staff: number): boolean =>
  note.name === 'note' && isOn(note, staff) && childOf(note, 'rest') === undefined;
const durationOf = (node: XmlElement): number => numberOf(childOf(node, 'duration')) ?? 0;
const stays = (note: XmlElement): boolean => (childOf(note, 'chord') ?? childOf(note, 'grace')) !== undefined;

const timeElement = (name: 'backup' | 'forward', duration: number): XmlElement =>
  element(name, {}, [element('duration', {}, [String(duration)])]);

const moved = (from: number, to: number): XmlElement[] =>
  from === to ? [] : [from > to ? timeElement('backup', from - to) : timeElement('forward', to - from)];

const withoutId = (node: XmlElement): XmlElement => {
  const attributes = Object.fromEntries(Object.entries(node.attributes).filter(([name]) => name !== 'id'));
  return { ...node, attributes, children: node.children.map((child) => (isElement(child) ? withoutId(child) : child)) };
};

/** The notes of a measure's staff once more, from a cursor on, each at its own time. */
function copiedNotes(source: XmlElement, staff: number, cursor: number): XmlElement[] {
  const copies: XmlElement[] = [];
  let at = 0;
  let now = cursor;
  for (const node of elementsOf(source)) {
    const isNote = node.name === 'note';
    const duration = node.name === 'backup' ? -durationOf(node) : durationOf(node);
    if (isNote && isOn(node, staff)) {
      if (!stays(node)) copies.push(...moved(now, at));
      copies.push(withoutId(node));
      now = stays(node) ? now : at + duration;
    }
    if (!isNote || !stays(node)) at += duration;
  }
  return copies;
}

/** A measure with the notes of another on one staff, in the place of its own rests there. */
function filledFrom(measure: XmlElement, source: XmlElement, staff: number): XmlElement {
  let cursor = 0;
  const children = measure.children.flatMap((node): XmlNode[] => {
    if (!isElement(node)) return [node];
    const duration = node.name === 'note' && stays(node) ? 0 : durationOf(node);
    if (node.name === 'backup') cursor -= duration;
    else if (node.name === 'forward' || node.name === 'note') cursor += duration;
    if (node.name !== 'note' || !isOn(node, staff)) return [node];
    return duration === 0 ? [] : [timeElement('forward', duration)];
  });
  const closing = children.findLastIndex(
    (node) => isElement(node, 'barline') && node.attributes['location'] !== 'left',
  );
  const at = closing < 0 ? children.length : closing;
  return withChildren(measure, [
    ...children.slice(0, at),
    ...copiedNotes(source, staff, cursor),
    ...children.slice(at),
  ]);
}

/** A measure that is written out, and what it counts time in, each value from the start of the measure on. */
interface Written {
  readonly measure: XmlElement;
  readonly divisions: readonly string[];
}

/** The divisions in force in a measure, from those at the end of the one before it on. */
const divisionsIn = (measure: XmlElement, before: Written | undefined): string[] => {
  const said = childrenOf(measure, 'attributes').map((one) => childText(one, 'divisions'));
  return [before?.divisions.at(-1) ?? '', ...said.filter((text) => text !== '')];
};

/** The measure that a bar repeats; undefined where there is none that counts time alike. */
function sourceOf(
  measures: readonly Written[],
  node: XmlElement,
  { barCount, from }: RepeatSign,
): XmlElement | undefined {
  const index = measures.length;
  const source = measures[from - barCount + ((index - from) % barCount)];
  const counted = divisionsIn(node, measures.at(-1));
  const isAlike = new Set([source?.divisions.at(-1), ...counted]).size === 1;
  return isAlike ? source?.measure : undefined;
}

function filledMeasure(node: XmlElement, measures: readonly Written[], open: OpenSigns, found: Found): XmlElement {
  let measure = node;
  for (const [staff, sign] of open) {
    if (elementsOf(node).some((own) => isStruck(own, staff))) continue;
    const source = sourceOf(measures, node, sign);
    const count = source === undefined ? Infinity : childrenOf(source, 'note').length;
    const isFilled = source !== undefined && count <= found.notesLeft;
    (isFilled ? found.filled : found.unfilled).push(node.attributes['number'] ?? String(measures.length + 1));
    if (!isFilled) continue;
    found.notesLeft -= count;
    measure = filledFrom(measure, source, staff);
  }
  return measure;
}

function writtenOutPart(part: XmlElement, found: Found): XmlElement {
  const measures: Written[] = [];
  let open: OpenSigns = new Map();
  const children = part.children.map((node): XmlNode => {
    if (!isElement(node, 'measure')) return node;
    const { here, after } = signsAt(open, node, measures.length);
    open = after;
    const measure = filledMeasure(node, measures, here, found);
    measures.push({ measure, divisions: divisionsIn(node, measures.at(-1)) });
    return measure;
  });
  return withChildren(part, children);
}

const hasSigns = (root: XmlElement): boolean =>
  childrenOf(root, 'part').some((part) =>
    childrenOf(part, 'measure').some((measure) =>
      childrenOf(measure, 'attributes').some((attributes) =>
        childrenOf(attributes, 'measure-style').some((style) => childOf(style, 'measure-repeat') !== undefined),
      ),
    ),
  );

const named = (labels: readonly string[]): string =>
  `${[...new Set(labels)].slice(0, 12).join(', ')}${new Set(labels).size > 12 ? ' …' : ''}`;

function issuesOf({ filled, unfilled }: Found): Issue[] {
  const issue = (severity: Issue['severity'], detail: string): Issue => ({
    code: severity === 'note' ? 'value-repaired' : 'element-left-out',
    where: { kind: 'file' },
    severity,
    detail,
  });
  return [
    ...(filled.length === 0
      ? []
      : [issue('note', `Bars that a sign tells to be played as those before were written out: ${named(filled)}.`)]),
    ...(unfilled.length === 0
      ? []
      : [
          issue(
            'warning',
            `A sign tells these bars to be played as those before, which could not be written out: ${named(unfilled)}.`,
          ),
        ]),
  ];
}

/** A partwise tree in which bars that a sign tells to be played as those before have the notes of those; the signs stay. A tree without such signs is the same object. **Source** MusicXML 4.0, measure-repeat. */
export function withRepeatsWrittenOut(root: XmlElement): WithIssues<XmlElement> {
  if (!hasSigns(root)) return { value: root, issues: [] };
  const found: Found = { filled: [], unfilled: [], notesLeft: limits.notes };
  const value = withChildren(
    root,
    root.children.map((node) => (isElement(node, 'part') ? writtenOutPart(node, found) : node)),
  );
  return { value, issues: issuesOf(found) };
}
