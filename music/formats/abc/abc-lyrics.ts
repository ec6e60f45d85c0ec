import type { AbcEvent, AbcSyllable } from './abc-events.ts';

/** A note that words may stand under. */
export interface SungNote {
  readonly event: AbcEvent;
  readonly barIndex: number;
}

type LyricToken =
  | { readonly kind: 'syllable'; readonly text: string; readonly goesOn: boolean }
  | { readonly kind: 'skip' | 'hold' | 'dash' | 'bar' };

/** **Source** ABC 2.1, lyrics: hyphen, underscore, star, tilde, backslash-hyphen and bar, from memory. */
function lyricTokens(text: string): LyricToken[] {
  const tokens: LyricToken[] = [];
  for (const match of text.matchAll(/[|*_-]|(?:\\-|[^\s|*_-])+/g)) {
    const [found] = match;
    if (found === '|') tokens.push({ kind: 'bar' });
    else if (found === '*') tokens.push({ kind: 'skip' });
    else if (found === '_') tokens.push({ kind: 'hold' });
    else if (found === '-') {
      const last = tokens.at(-1);
      const joins = last?.kind === 'syllable' && !last.goesOn && !/\s/.test(text.charAt(match.index - 1));
      if (joins) tokens[tokens.length - 1] = { ...last, goesOn: true };
      else tokens.push({ kind: 'dash' });
    } else tokens.push({ kind: 'syllable', text: found.replaceAll('\\-', '-').replaceAll('~', ' '), goesOn: false });
  }
  return tokens;
}

const syllabicOf = (isWithin: boolean, goesOn: boolean): AbcSyllable['syllabic'] =>
  goesOn ? (isWithin ? 'middle' : 'begin') : isWithin ? 'end' : 'single';

/** Where the words of a verse have come to under a line of music. */
export interface LyricPlace {
  readonly notes: readonly SungNote[];
  readonly verse: number;
  /** The note that comes next. */
  at: number;
  /** The bar that a bar line led to; null where none did since the last word. */
  bar: number | null;
  /** Within a word. */
  isWithin: boolean;
  last: AbcSyllable | null;
}

/** Goes to the next bar. A bar line at the very start, or where the words have filled their bar, leads to where they are anyway. */
function passBarLine(place: LyricPlace): void {
  const { notes, at, bar } = place;
  if (at === 0 && bar === null) return;
  const from = bar ?? notes[at - 1]?.barIndex ?? Infinity;
  place.bar = from + 1;
  const next = notes.findIndex(({ barIndex }, index) => index >= at && barIndex > from);
  place.at = next < 0 ? notes.length : next;
}

/** Sets words of a verse under the notes of a line of music. Tells how many syllables found no note. */
export function setLyrics(text: string, place: LyricPlace): number {
  let left = 0;
  for (const token of lyricTokens(text)) {
    if (token.kind === 'bar') {
      passBarLine(place);
      continue;
    }
    const note = place.notes[place.at];
    place.at += 1;
    place.bar = null;
    if (token.kind === 'hold' && place.last !== null) place.last.isExtended = true;
    if (token.kind !== 'syllable') continue;
    const syllabic = syllabicOf(place.isWithin, token.goesOn);
    place.isWithin = token.goesOn;
    if (note === undefined) {
      left += 1;
      continue;
    }
    place.last = { verse: place.verse, text: token.text, syllabic, isExtended: false };
    note.event.syllables.push(place.last);
  }
  return left;
}
