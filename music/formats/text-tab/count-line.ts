import { divisions } from './meter.ts';
import type { BarContent } from './moments.ts';
import { stepsOf, type RhythmStep } from './rhythm-letters.ts';
import type { TextLine } from './text-line.ts';

/** One word of counting and its place in the bar. **Units** divisions. */
interface Count {
  readonly column: number;
  readonly time: number;
}

interface Word {
  readonly column: number;
  readonly text: string;
}

const label = /^\s*(?:count(?:ing)?|beats?)\s*:?/i;
const word = /\d{1,2}|and|[&+]|[ea](?![a-z])/gi;

/** The words of a line in which one counts, or null where it is none: numbers from 1 with what stands between them. */
function wordsOf({ text }: TextLine): Word[] | null {
  const plain = text.replace(label, (found) => ' '.repeat(found.length));
  const words = [...plain.matchAll(word)].map((match) => ({ column: match.index, text: match[0].toLowerCase() }));
  const isCounting = words[0]?.text === '1' && words.length > 2 && /^[\s|.,:;()-]*$/.test(plain.replace(word, ''));
  const isTold = label.test(text) || words.some((one) => /^(?:and|[&+])$/.test(one.text));
  return isCounting && isTold ? words : null;
}

/** How far after the number each word between numbers is. **Units** the beat. **Source** common practice, no source. */
const between: Readonly<Record<string, number>> = { e: 1 / 4, '&': 1 / 2, '+': 1 / 2, and: 1 / 2, a: 3 / 4 };
const inThirds: Readonly<Record<string, number>> = { '&': 1 / 3, '+': 1 / 3, and: 1 / 3, a: 2 / 3 };

/** Whether every beat is counted in three: `1 & a 2 & a`. */
function isInThirds(words: readonly Word[]): boolean {
  const pattern = words.map(({ text }) => (/\d/.test(text) ? 'n' : text === 'a' ? 'a' : text === 'e' ? 'e' : '&'));
  return /^(?:n&a)+$/.test(pattern.join(''));
}

function countsOf(words: readonly Word[]): { readonly counts: readonly Count[]; readonly length: number } {
  const numbers = words.flatMap(({ text }) => (/\d/.test(text) ? [Number(text)] : []));
  const beats = Math.max(...numbers);
  const hasWords = numbers.length < words.length;
  const beat = !hasWords && beats % 3 === 0 && beats > 3 ? divisions / 2 : divisions;
  const places = isInThirds(words) ? inThirds : between;
  let number = 1;
  const counts = words.map(({ column, text }): Count => {
    if (/\d/.test(text)) number = Number(text);
    const within = /\d/.test(text) ? 0 : (places[text] ?? 0);
    return { column, time: Math.round((number - 1 + within) * beat) };
  });
  return { counts, length: beats * beat };
}

/** The rhythm of one bar by the words over it; none where they pass a note over or do not run forward. */
function stepsOfBar({ moments }: BarContent, counts: readonly Count[], length: number): RhythmStep[] {
  const signs = counts.map(({ column, time }) => ({ column, length: time, isTriplet: false }));
  const struck = stepsOf(signs, moments).filter(({ moment }) => moment !== null);
  const isForward = struck.every((step, index) => step.length > (struck[index - 1]?.length ?? -1));
  if (struck.length === 0 || struck.length < moments.length || !isForward) return [];
  const first = struck[0];
  const opening =
    first === undefined || first.length === 0
      ? []
      : [{ ...first, moment: null, isTriplet: false, length: first.length }];
  return [
    ...opening,
    ...struck.map((step, index) => ({ ...step, length: (struck[index + 1]?.length ?? length) - step.length })),
  ];
}

/** The rhythm that a line of counting tells, bar for bar; null where it is no such line or fits no bar. */
export function countedSteps(line: TextLine, bars: readonly BarContent[]): RhythmStep[][] | null {
  const words = wordsOf(line);
  if (words === null) return null;
  const { counts, length } = countsOf(words);
  const steps = bars.map((bar, index) => {
    const from = index === 0 ? -Infinity : bar.textFrom;
    const own = counts.filter(({ column }) => column >= from && column < (bars[index + 1]?.textFrom ?? Infinity));
    return stepsOfBar(bar, own, length);
  });
  return steps.some((own) => own.length > 0) ? steps : null;
}
