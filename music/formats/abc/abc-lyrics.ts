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
  for (const match of text.matchAll(/\\-|[|*_]|-|(?:\\-|[^\s|*_-])+/g)) {
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

/** Sets the words of one verse under the notes of a line of music. Tells how many syllables found no note. */
export function setLyrics(text: string, notes: readonly SungNote[], verse: number): number {
  let at = 0;
  let isWithin = false;
  let last: AbcSyllable | null = null;
  let left = 0;
  for (const token of lyricTokens(text)) {
    if (token.kind === 'bar') {
      const from = at === 0 ? -1 : (notes[at - 1]?.barIndex ?? Infinity);
      const passed = notes[at]?.barIndex !== undefined && at > 0 && notes[at]?.barIndex !== from;
      if (!passed && at > 0) while (at < notes.length && notes[at]?.barIndex === from) at += 1;
      continue;
    }
    const note = notes[at];
    at += 1;
    if (token.kind === 'hold' && last !== null) last.isExtended = true;
    if (token.kind !== 'syllable') continue;
    const syllabic = syllabicOf(isWithin, token.goesOn);
    isWithin = token.goesOn;
    if (note === undefined) {
      left += 1;
      continue;
    }
    last = { verse, text: token.text, syllabic, isExtended: false };
    note.event.syllables.push(last);
  }
  return left;
}
