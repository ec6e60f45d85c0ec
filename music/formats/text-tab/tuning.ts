import type { StringLine } from './string-line.ts';
import type { TabLog } from './tab-log.ts';
import type { TextLine } from './text-line.ts';
import { namedTunings, tuningsByLetters, usualTunings } from './tunings.data.ts';

/** How the strings of a tablature are tuned, and whether it is written with the lowest string above. */
export interface TabTuning {
  /** Highest line first. **Units** MIDI note numbers without capo. */
  readonly strings: readonly number[];
  readonly isUpsideDown: boolean;
  /** What stands at the left of a whole system, highest line first. */
  readonly labels: readonly (string | null)[];
}

const semitones: Readonly<Record<string, number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };

/** The pitch class of a tuning letter. */
function pitchClassOf(letter: string): number {
  const natural = semitones[letter.charAt(0).toUpperCase()] ?? 0;
  const sign = letter.charAt(1);
  return natural + (/[#♯]/.test(sign) ? 1 : /[b♭B]/.test(sign) ? -1 : 0);
}

/** The note of a pitch class nearest to another; of equals the lower. */
const nearest = (pitchClass: number, midi: number): number => {
  const up = (((pitchClass - midi) % 12) + 12) % 12;
  return up < 6 ? midi + up : midi + up - 12;
};

interface Fit {
  readonly strings: readonly number[];
  readonly distance: number;
}

function fitOf(letters: readonly string[], usual: readonly number[]): Fit {
  const strings = usual.map((midi, index) => nearest(pitchClassOf(letters[index] ?? ''), midi));
  return { strings, distance: strings.reduce((sum, midi, index) => sum + Math.abs(midi - (usual[index] ?? 0)), 0) };
}

/** The tuning that letters, highest line first, spell: each string as near to the usual one as its letter allows, either way up. */
export function tuningOfLetters(letters: readonly string[]): Omit<TabTuning, 'labels'> | null {
  const usual = usualTunings[letters.length];
  if (usual === undefined) return null;
  const other = tuningsByLetters[letters.map((letter) => letter.toUpperCase()).join(' ')];
  if (other !== undefined) return { strings: other, isUpsideDown: false };
  const asWritten = fitOf(letters, usual);
  const reversed = fitOf(letters.toReversed(), usual);
  return reversed.distance < asWritten.distance
    ? { strings: reversed.strings, isUpsideDown: true }
    : { strings: asWritten.strings, isUpsideDown: false };
}

const lettersAfter =
  /\btun(?:ing|ed(?:\s+to)?)\b\s*[:=]?\s*[([]?\s*((?:[A-Ga-g][#b♯♭]?[\s,-]*){4,8})[)\]]?\s*(?:\(.*)?$/i;

/** The tuning that a line of words names, by letters (lowest string first, as one says them) or by name. */
export function tuningOfWords(text: string): readonly number[] | null {
  if (!/\btun(?:ing|ed?)\b|\bdadgad\b/i.test(text)) return null;
  const spelled = lettersAfter.exec(text)?.[1]?.match(/[A-Ga-g][#b♯♭]?/g);
  if (spelled !== null && spelled !== undefined && spelled.length >= 4) {
    const found = tuningOfLetters(spelled.map(capital).toReversed());
    if (found !== null) return found.strings;
  }
  return namedTunings.find(([pattern]) => pattern.test(text))?.[1] ?? null;
}

const capital = (letter: string): string => letter.charAt(0).toUpperCase() + letter.slice(1);

/** The letters at the left of a whole system, if each line has one. */
function lettersOf(system: readonly StringLine[]): string[] | null {
  const letters = system.map(({ label }) => label ?? '');
  return letters.every((letter) => /^[A-G][#b♯♭]?$/i.test(letter)) ? letters : null;
}

const areEqual = (a: readonly number[], b: readonly number[]): boolean =>
  a.length === b.length && a.every((value, index) => value === b[index]);

const longestField = 200;

interface Words {
  readonly strings: readonly number[];
  readonly line: TextLine;
}

function tuningOfHeader(header: readonly TextLine[]): Words | null {
  for (const line of header) {
    if (line.text.length > longestField) continue;
    const strings = tuningOfWords(line.text);
    if (strings !== null) return { strings, line };
  }
  return null;
}

const sixLetters = ['e', 'B', 'G', 'D', 'A', 'E'];

/** Whether five letters are those of a guitar with one line left out. */
function isGuitarWithoutOne(letters: readonly string[] | null): boolean {
  if (letters?.length !== 5) return false;
  const said = letters.join(' ').toUpperCase();
  return sixLetters.some((_, left) => sixLetters.toSpliced(left, 1).join(' ').toUpperCase() === said);
}

interface Evidence {
  readonly count: number;
  readonly first: TextLine | undefined;
  readonly byLetters: Omit<TabTuning, 'labels'> | null;
  readonly words: Words | null;
  readonly asked: readonly number[] | null;
}

function stringsBy({ count, first, byLetters, words, asked }: Evidence, log: TabLog): readonly number[] {
  const usual = usualTunings[count] ?? [];
  if (asked?.length === count) return asked;
  if (words?.strings.length === count) {
    if (byLetters === null || areEqual(byLetters.strings, words.strings) || areEqual(byLetters.strings, usual))
      return words.strings;
    const detail = 'The tuning in words and the letters at the left differ; the letters were believed.';
    log.add('tuning-assumed', 'warning', detail, words.line);
  }
  if (byLetters !== null) return byLetters.strings;
  log.add('tuning-assumed', 'note', `No tuning is given; the usual one of ${count} strings was assumed.`, first);
  return usual;
}

/** The tuning by what was asked for, the heading's words and the letters at the left, else the usual one, which is reported. */
export function findTuning(
  systems: readonly (readonly StringLine[])[],
  header: readonly TextLine[],
  asked: readonly number[] | null,
  log: TabLog,
): TabTuning {
  const drawn = Math.max(...systems.map((system) => system.length));
  const full = systems.find((system) => system.length === drawn && lettersOf(system) !== null);
  const letters = full === undefined ? null : lettersOf(full);
  const isShort = isGuitarWithoutOne(letters);
  const count = isShort ? sixLetters.length : drawn;
  const labels = isShort ? sixLetters : (letters ?? Array.from({ length: count }, () => null));
  const spelled = isShort ? sixLetters : letters;
  const byLetters = spelled === null ? null : tuningOfLetters(spelled);
  const isUpsideDown = byLetters?.isUpsideDown ?? false;
  const first = systems[0]?.[0]?.line;
  if (isUpsideDown) {
    const detail = 'The letters at the left run from low to high; the lowest line was read as string 1.';
    log.add('value-repaired', 'warning', detail, first);
  }
  const strings = stringsBy({ count, first, byLetters, words: tuningOfHeader(header), asked }, log);
  return { strings, isUpsideDown, labels };
}
