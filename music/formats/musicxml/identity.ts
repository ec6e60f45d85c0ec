import { headId, type HeadId } from '../../basis/ids.ts';
import { midiOf } from '../../basis/pitch.ts';
import { childrenOf, type XmlDocument, type XmlElement } from '../xml/tree.ts';
import type { IssueLog } from './issue-log.ts';
import { isHit } from './chains.ts';
import type { RawHead, RawPart } from './raw-part.ts';

/** The ids of heads and bars, and what they were called before. */
export interface Identity {
  readonly ofElement: ReadonlyMap<XmlElement, string>;
  readonly ofBar: readonly string[];
  readonly sourceIds: ReadonlyMap<HeadId, string>;
  readonly nextNoteNumber: number;
  readonly nextBarNumber: number;
}

interface PlacedHead {
  readonly head: RawHead;
  readonly partIndex: number;
  readonly height: number;
}

const heightOf = (head: RawHead): number => (head.pitch === null || isHit(head) ? -1 : midiOf(head.pitch));

/** The heads that get ids, as they are read: by time, parts and staves downwards, pitches from high to low. */
function headsInOrder(parts: readonly RawPart[]): RawHead[] {
  const placed = parts.flatMap((part, partIndex) =>
    part.heads.filter((head) => !head.isCue).map((head): PlacedHead => ({ head, partIndex, height: heightOf(head) })),
  );
  placed.sort(
    (a, b) =>
      a.head.barIndex - b.head.barIndex ||
      a.head.offsetTicks - b.head.offsetTicks ||
      Number(b.head.isGrace) - Number(a.head.isGrace) ||
      a.partIndex - b.partIndex ||
      a.head.staff - b.head.staff ||
      b.height - a.height,
  );
  return placed.map(({ head }) => head);
}

/** The measures of each bar, those of the first part that has the bar in front. */
function measuresByBar(root: XmlElement): { readonly measure: XmlElement; readonly partIndex: number }[][] {
  const byBar: { measure: XmlElement; partIndex: number }[][] = [];
  childrenOf(root, 'part').forEach((part, partIndex) => {
    childrenOf(part, 'measure').forEach((measure, index) => {
      (byBar[index] ??= []).push({ measure, partIndex });
    });
  });
  return byBar;
}

/** Ids that elements other than those to be named have, which must stay theirs alone. */
const idsOfOthers = (
  identified: readonly XmlElement[],
  named: { readonly has: (element: XmlElement) => boolean },
): Set<string> =>
  new Set(identified.flatMap((element) => (named.has(element) ? [] : (element.attributes['id'] ?? []))));

class Numbering {
  next: number;
  private readonly prefix: string;
  private readonly taken: ReadonlySet<string>;

  constructor(prefix: string, first: number, taken: ReadonlySet<string>) {
    this.prefix = prefix;
    this.next = first;
    this.taken = taken;
  }

  take(): string {
    let id = `${this.prefix}${this.next}`;
    while (this.taken.has(id)) id = `${this.prefix}${(this.next += 1)}`;
    this.next += 1;
    return id;
  }
}

/** Ids n1, n2 … for the heads and b1, b2 … for the bars, from the given numbers on; numbers that the document uses otherwise are passed over. */
export function numberAll(
  { root, identified }: XmlDocument,
  parts: readonly RawPart[],
  first: { readonly note: number; readonly bar: number },
): Identity {
  const heads = headsInOrder(parts);
  const bars = measuresByBar(root);
  const named = new Set([...heads.map((head) => head.element), ...bars.flat().map(({ measure }) => measure)]);
  const taken = idsOfOthers(identified, named);
  const notes = new Numbering('n', first.note, taken);
  const barNumbers = new Numbering('b', first.bar, taken);
  const ofElement = new Map<XmlElement, string>();
  const sourceIds = new Map<HeadId, string>();
  for (const { element } of heads) {
    const id = notes.take();
    ofElement.set(element, id);
    if (element.attributes['id'] !== undefined) sourceIds.set(headId(id), element.attributes['id']);
  }
  const ofBar = bars.map((measures) => {
    const id = barNumbers.take();
    measures.forEach(({ measure, partIndex }, index) =>
      ofElement.set(measure, index === 0 ? id : `${id}-p${partIndex + 1}`),
    );
    return id;
  });
  return { ofElement, ofBar, sourceIds, nextNoteNumber: notes.next, nextBarNumber: barNumbers.next };
}

/** The ids that a normalised document carries; heads and bars without one of their own get the next free number. */
export function idsAsWritten({ root, identified }: XmlDocument, parts: readonly RawPart[], log: IssueLog): Identity {
  const seen = new Set<string>();
  const ofElement = new Map<XmlElement, string>();
  const nameless: RawHead[] = [];
  for (const head of headsInOrder(parts)) {
    const id = head.element.attributes['id'];
    if (id === undefined || seen.has(id)) nameless.push(head);
    else {
      seen.add(id);
      ofElement.set(head.element, id);
    }
  }
  const bars = measuresByBar(root);
  const written = bars.map((measures) => measures[0]?.measure.attributes['id'] ?? null);
  const isWhole = nameless.length === 0 && new Set(written).size === written.length && !written.includes(null);
  if (isWhole) {
    const ofBar = written.map((id) => id ?? '');
    return { ofElement, ofBar, sourceIds: new Map(), nextNoteNumber: 1, nextBarNumber: 1 };
  }
  const all = new Set([...seen, ...written.filter((id) => id !== null), ...idsOfOthers(identified, new Set())]);
  const notes = new Numbering('n', 1, all);
  const barNumbers = new Numbering('b', 1, all);
  for (const head of nameless) ofElement.set(head.element, notes.take());
  const used = new Set<string>();
  const ofBar = written.map((id) => {
    const own = id === null || used.has(id) ? barNumbers.take() : id;
    used.add(own);
    return own;
  });
  if (nameless.length > 0)
    log.add(
      'value-repaired',
      'warning',
      `${nameless.length} heads had no id of their own; free numbers were given to them.`,
    );
  return { ofElement, ofBar, sourceIds: new Map(), nextNoteNumber: notes.next, nextBarNumber: barNumbers.next };
}
