import { headId, type HeadId } from '../../basis/ids.ts';
import { midiOf } from '../../basis/pitch.ts';
import type { NewId } from '../xml/identified-text.ts';
import { childrenOf, type XmlDocument, type XmlElement } from '../xml/tree.ts';
import type { IssueLog } from './issue-log.ts';
import { isHit } from './chains.ts';
import type { RawHead, RawPart } from './raw-part.ts';

/** The ids of heads and bars, and what they were called before. */
export interface Identity {
  /** By part and head; empty for heads that get none. */
  readonly ofHead: readonly (readonly HeadId[])[];
  readonly ofBar: readonly string[];
  readonly sourceIds: ReadonlyMap<HeadId, string>;
  readonly nextNoteNumber: number;
  readonly nextBarNumber: number;
}

/** The id of a head. */
export const idOfHead = ({ ofHead }: Identity, { partIndex, index }: RawHead): HeadId =>
  ofHead[partIndex]?.[index] ?? headId('');

const noIds = (parts: readonly RawPart[]): HeadId[][] => parts.map(({ heads }) => heads.map(() => headId('')));

function giveId(ofHead: readonly HeadId[][], { partIndex, index }: RawHead, id: HeadId): void {
  const ids = ofHead[partIndex];
  if (ids !== undefined) ids[index] = id;
}

const heightOf = (head: RawHead): number => (head.pitch === null || isHit(head) ? -1 : midiOf(head.pitch));

const inReadingOrder = (a: RawHead, b: RawHead): number =>
  a.barIndex - b.barIndex ||
  a.offsetTicks - b.offsetTicks ||
  Number(b.isGrace) - Number(a.isGrace) ||
  a.partIndex - b.partIndex ||
  a.staff - b.staff ||
  heightOf(b) - heightOf(a);

/** The heads that get ids, as they are read: by time, parts and staves downwards, pitches from high to low. */
function headsInOrder(parts: readonly RawPart[]): RawHead[] {
  const named: RawHead[] = [];
  for (const { heads } of parts) for (const head of heads) if (!head.isCue) named.push(head);
  return named.sort(inReadingOrder);
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

/** The ids of elements, which must stay theirs alone. */
const idsOf = (elements: readonly XmlElement[]): Set<string> =>
  new Set(elements.flatMap(({ attributes }) => attributes['id'] ?? []));

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

/** The elements with an id that are neither heads nor measures. */
function others(
  identified: readonly XmlElement[],
  heads: readonly RawHead[],
  bars: ReturnType<typeof measuresByBar>,
): readonly XmlElement[] {
  if (!identified.some(({ name }) => name === 'note' || name === 'measure')) return identified;
  const named = new Set([...heads.map(({ element }) => element), ...bars.flat().map(({ measure }) => measure)]);
  return identified.filter((element) => !named.has(element));
}

/** Ids n1, n2 … for the heads and b1, b2 … for the bars, from the given numbers on; numbers that the document uses otherwise are passed over. */
export function numberAll(
  { root, identified }: XmlDocument,
  parts: readonly RawPart[],
  first: { readonly note: number; readonly bar: number },
): Identity {
  const heads = headsInOrder(parts);
  const bars = measuresByBar(root);
  const taken = idsOf(others(identified, heads, bars));
  const notes = new Numbering('n', first.note, taken);
  const barNumbers = new Numbering('b', first.bar, taken);
  const ofHead = noIds(parts);
  const sourceIds = new Map<HeadId, string>();
  for (const head of heads) {
    const id = headId(notes.take());
    giveId(ofHead, head, id);
    const own = head.element.attributes['id'];
    if (own !== undefined) sourceIds.set(id, own);
  }
  const ofBar = bars.map(() => barNumbers.take());
  return { ofHead, ofBar, sourceIds, nextNoteNumber: notes.next, nextBarNumber: barNumbers.next };
}

/** The ids that the measures and heads of a document get, in the order of the document; a bar's own id is that of its measure in the first part that has the bar. */
export function newIdsOf(root: XmlElement, parts: readonly RawPart[], { ofHead, ofBar }: Identity): NewId[] {
  const found: NewId[] = [];
  let barsBefore = 0;
  childrenOf(root, 'part').forEach((part, partIndex) => {
    const heads = parts[partIndex]?.heads ?? [];
    const ids = ofHead[partIndex] ?? [];
    const measures = childrenOf(part, 'measure');
    let next = 0;
    measures.forEach((measure, barIndex) => {
      const id = ofBar[barIndex] ?? '';
      found.push({ element: measure, id: barIndex >= barsBefore ? id : `${id}-p${partIndex + 1}` });
      for (let head = heads[next]; head?.barIndex === barIndex; head = heads[next]) {
        const idOfNote = ids[next] ?? '';
        if (idOfNote !== '') found.push({ element: head.element, id: idOfNote });
        next += 1;
      }
    });
    barsBefore = Math.max(barsBefore, measures.length);
  });
  return found;
}

/** The ids that a normalised document carries; heads and bars without one of their own get the next free number. */
export function idsAsWritten({ root, identified }: XmlDocument, parts: readonly RawPart[], log: IssueLog): Identity {
  const seen = new Set<string>();
  const ofHead = noIds(parts);
  const nameless: RawHead[] = [];
  for (const head of headsInOrder(parts)) {
    const id = head.element.attributes['id'];
    if (id === undefined || seen.has(id)) nameless.push(head);
    else {
      seen.add(id);
      giveId(ofHead, head, headId(id));
    }
  }
  const bars = measuresByBar(root);
  const written = bars.map((measures) => measures[0]?.measure.attributes['id'] ?? null);
  const isWhole = nameless.length === 0 && new Set(written).size === written.length && !written.includes(null);
  if (isWhole) {
    const ofBar = written.map((id) => id ?? '');
    return { ofHead, ofBar, sourceIds: new Map(), nextNoteNumber: 1, nextBarNumber: 1 };
  }
  const all = new Set([...seen, ...written.filter((id) => id !== null), ...idsOf(identified)]);
  const notes = new Numbering('n', 1, all);
  const barNumbers = new Numbering('b', 1, all);
  for (const head of nameless) giveId(ofHead, head, headId(notes.take()));
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
  return { ofHead, ofBar, sourceIds: new Map(), nextNoteNumber: notes.next, nextBarNumber: barNumbers.next };
}
