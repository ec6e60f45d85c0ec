import type { XmlElement } from './tree.ts';

/** Texts no longer than this are kept once for all that are alike. **Units** characters. */
export const longestShared = 24;
/** So many texts are kept to be shared, of elements so many of each name. */
export const mostShared = 2000;
/** Elements that get ids, and those that excerpts change one by one. */
export const neverShared: ReadonlySet<string> = new Set(['note', 'measure', 'beam']);

/** An element that holds nothing but a text and stands for all of its name that hold the same. */
interface Leaf {
  readonly element: XmlElement;
  /** What follows its start tag: the text and the end tag. */
  readonly ending: string;
}

/** A name with the leaves of that name that came before. A score says the same few things again and again, mostly in the same order, so what came last is tried before anything is looked up. */
export interface KnownName {
  readonly name: string;
  /** By their text. */
  readonly leaves: Map<string, Leaf>;
  lastLeaf: Leaf | null;
  /** The name that came after this one, when it came last. */
  follower: KnownName | null;
}

/** By character code: 1 where a name may begin, 3 where one may go on, among the plain letters. **Source** XML 1.0, fifth edition, names. */
const nameParts = new Uint8Array(128);
for (const letter of 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz_:') nameParts[letter.charCodeAt(0)] = 3;
for (const letter of '0123456789.-') nameParts[letter.charCodeAt(0)] = 2;

const partOf = (code: number): number => (code < 128 ? (nameParts[code] ?? 0) : 0);

/** The names of a text, each as one string and with what is known of it. */
export class KnownNames {
  private readonly names = new Map<string, KnownName>();
  private last: KnownName | null = null;

  /** The name that begins at a place, or null. */
  at(text: string, start: number): KnownName | null {
    const guess = this.last?.follower ?? null;
    if (guess !== null && text.startsWith(guess.name, start)) {
      if (partOf(text.charCodeAt(start + guess.name.length)) === 0) return (this.last = guess);
    }
    if ((partOf(text.charCodeAt(start)) & 1) === 0) return null;
    let end = start + 1;
    while (partOf(text.charCodeAt(end)) !== 0) end += 1;
    const found = this.called(text.slice(start, end));
    if (this.last !== null) this.last.follower = found;
    return (this.last = found);
  }

  private called(name: string): KnownName {
    const known = this.names.get(name);
    if (known !== undefined) return known;
    const fresh: KnownName = { name, leaves: new Map(), lastLeaf: null, follower: null };
    this.names.set(name, fresh);
    return fresh;
  }
}

/** The leaf whose text and end tag stand at a place; null where none is known. */
export function leafAt(known: KnownName, text: string, at: number): Leaf | null {
  const { lastLeaf, leaves } = known;
  if (lastLeaf === null) return null;
  if (text.startsWith(lastLeaf.ending, at)) return lastLeaf;
  const end = text.indexOf('<', at);
  if (end - at > longestShared) return null;
  const leaf = leaves.get(text.slice(at, end)) ?? null;
  return leaf !== null && text.startsWith(leaf.ending, at) ? (known.lastLeaf = leaf) : null;
}

/** Keeps an element that has no attributes and holds nothing but a text, to stand for all that are written alike. */
export function keepLeaf(known: KnownName, element: XmlElement, text: string): void {
  const { name, leaves } = known;
  const isWrittenSo = text.length <= longestShared && !/[&<]/.test(text);
  if (!isWrittenSo || leaves.size >= mostShared || neverShared.has(name)) return;
  known.lastLeaf = { element, ending: `${text}</${name}>` };
  leaves.set(text, known.lastLeaf);
}
