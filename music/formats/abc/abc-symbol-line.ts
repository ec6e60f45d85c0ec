import type { SungNote } from './abc-lyrics.ts';

/** What a symbol line leaves over: symbols under no note, and what it does not understand. */
export interface SymbolsLeft {
  readonly beyond: number;
  readonly unknown: readonly string[];
}

/** Past the notes of the bar that the last symbol stood in. */
function nextBar(at: number, notes: readonly SungNote[]): number {
  const bar = at === 0 ? notes[0]?.barIndex : notes[at - 1]?.barIndex;
  const next = notes.findIndex(({ barIndex }) => bar !== undefined && barIndex > bar);
  return Math.max(at, next < 0 ? notes.length : next);
}

/** Sets chord symbols, words and decorations at the notes of a line of music, one after the other; `*` passes a note, `|` goes to the next bar. **Source** ABC 2.1, symbol lines, from memory. */
export function setSymbols(
  text: string,
  notes: readonly SungNote[],
  say: (event: SungNote['event'], quoted: string) => void,
): SymbolsLeft {
  const unknown: string[] = [];
  let at = 0;
  let beyond = 0;
  for (const [found] of text.matchAll(/"[^"]*"|![^!\s]+!|\+[^+\s]+\+|[*|]|[^\s"!*|]+|./gs)) {
    if (found.trim() === '') continue;
    if (found === '|') at = nextBar(at, notes);
    else if (found === '*') at += 1;
    else {
      const event = notes[at]?.event;
      const isQuoted = found.length > 1 && found.startsWith('"');
      const isDecoration = found.length > 2 && /^[!+]/.test(found);
      if (!isQuoted && !isDecoration) unknown.push(found);
      else if (event === undefined) beyond += 1;
      else if (isQuoted) say(event, found.slice(1, -1));
      else event.decorations.push(found.slice(1, -1));
      at += 1;
    }
  }
  return { beyond, unknown };
}
