import type { ScoreFacts } from '../../lib/api/songs.ts';
import { tuningWords } from '../../lib/tuning-words.ts';

const majorKeys = ['C♭', 'G♭', 'D♭', 'A♭', 'E♭', 'B♭', 'F', 'C', 'G', 'D', 'A', 'E', 'B', 'F♯', 'C♯'];

/** A key signature in words: the major key it stands for, and its sharps or flats. */
export function keyWords(fifths: number): string {
  const count = Math.abs(fifths);
  const signs =
    fifths === 0 ? 'no sharps or flats' : `${count} ${fifths > 0 ? 'sharp' : 'flat'}${count === 1 ? '' : 's'}`;
  const name = majorKeys[fifths + 7];
  return name === undefined ? signs : `${name} major or its minor (${signs})`;
}

/** A number as a place in a row: `1st`, `22nd`, `13th`. */
export function ordinalWords(count: number): string {
  const isTeen = Math.floor(count / 10) % 10 === 1;
  const ending = isTeen ? 'th' : (['th', 'st', 'nd', 'rd'][count % 10] ?? 'th');
  return `${count}${ending}`;
}

/** The first value and every later change with its bar: `4/4, 3/4 from the 9th bar`. Bars are counted in written order, whatever their printed numbers. */
export const changesWords = <Value>(
  changes: readonly (readonly [number, Value])[],
  words: (value: Value) => string,
): string =>
  changes
    .map(([ordinal, value], index) =>
      index === 0 ? words(value) : `${words(value)} from the ${ordinalWords(ordinal)} bar`,
    )
    .join(', ');

/** A part as its file calls it, and told from others of that name. */
export function partWords(part: string, { parts }: ScoreFacts): string {
  const name = parts.find(({ id }) => id === part)?.name ?? '';
  if (name === '') return `Part ${part}`;
  return parts.filter((other) => other.name === name).length > 1 ? `${name} (${part})` : name;
}

/** What is true of each part with strings: once where it is the same of all, else part by part. */
function guitarWords(facts: ScoreFacts, words: (part: ScoreFacts['parts'][number]) => string): string | null {
  const guitars = facts.parts.filter(({ tuning, pairedWith }) => tuning !== null && pairedWith === null);
  const [first, ...others] = new Set(guitars.map(words));
  if (first === undefined || others.length === 0) return first ?? null;
  return guitars.map((part) => `${partWords(part.id, facts)}: ${words(part)}`).join('; ');
}

/** The facts of a score as pairs of a name and what is true; what the score does not say is left out. */
export function factRows(facts: ScoreFacts): readonly (readonly [string, string])[] {
  const rows: (readonly [string, string | null])[] = [
    ['Bars', String(facts.barCount)],
    ['Meter', facts.meters.length === 0 ? null : changesWords(facts.meters, (meter) => meter)],
    ['Key', facts.keys.length === 0 ? null : changesWords(facts.keys, keyWords)],
    [
      'Tempo',
      facts.quartersPerMinute === null
        ? 'not written'
        : `${Math.round(facts.quartersPerMinute)} quarter notes a minute`,
    ],
    ['Tuning', guitarWords(facts, ({ tuning }) => `${tuningWords(tuning ?? [])}, low to high`)],
    ['Capo', guitarWords(facts, ({ capoFret }) => (capoFret === 0 ? 'none' : `fret ${capoFret}`))],
    ['Notes', `${facts.soundingNotes} sounding, ${facts.plucks} plucks, ${facts.heads} heads and fret numbers`],
  ];
  return rows.flatMap(([name, value]) => (value === null ? [] : [[name, value] as const]));
}
