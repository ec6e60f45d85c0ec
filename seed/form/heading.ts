import type { Dye, Key, LineRole, Meter } from '../../music/index.ts';
import { keyOfText, tuningOfText } from './pitch-text.ts';
import type { PieceLine, PieceProblem } from './piece.ts';

/** What stands before the first bar. */
export interface Heading {
  readonly title: string;
  readonly composer: string;
  readonly tuning: readonly number[];
  readonly capoFret: number;
  readonly key: Key;
  readonly meter: Meter;
  readonly quartersPerMinute: number;
  readonly lines: readonly PieceLine[];
}

type Draft = { -readonly [Field in keyof Omit<Heading, 'lines'>]?: Heading[Field] } & { lines: PieceLine[] };

const roles: readonly LineRole[] = ['melody', 'counter', 'middle', 'bass', 'percussion', 'accompaniment'];
const dyes: readonly Dye[] = ['madder', 'weld', 'verdigris', 'indigo', 'walnut', 'logwood'];

/** The meter that a text such as `3/4` names, or null. */
export function meterOfText(text: string): Meter | null {
  const match = /^(\d{1,2})\/(2|4|8)$/.exec(text);
  return match === null ? null : { beats: [Number(match[1])], beatUnit: Number(match[2]) };
}

function lineOfText(text: string): PieceLine | null {
  const match = /^(\S) "([^"]+)" (\S+) (\S+) stems (up|down)$/.exec(text);
  if (match === null) return null;
  const [, letter = '', name = '', role, dye, stems] = match;
  if (!roles.includes(role as LineRole) || !dyes.includes(dye as Dye)) return null;
  return { letter, name, role: role as LineRole, dye: dye as Dye, stems: stems as 'up' | 'down' };
}

function wholeNumber(text: string, low: number, high: number): number | null {
  const number = Number(text);
  return Number.isInteger(number) && number >= low && number <= high ? number : null;
}

type FieldReader = (draft: Draft, text: string) => boolean;

function put<Field extends keyof Omit<Heading, 'lines'>>(
  field: Field,
  read: (text: string) => Heading[Field] | null,
): FieldReader {
  return (draft, text) => {
    const value = read(text);
    if (value === null) return false;
    draft[field] = value as Draft[Field];
    return true;
  };
}

const readers: Readonly<Record<string, { readonly read: FieldReader; readonly form: string }>> = {
  title: { read: put('title', (text) => text), form: 'title WORDS' },
  composer: { read: put('composer', (text) => text), form: 'composer WORDS' },
  tuning: { read: put('tuning', tuningOfText), form: 'tuning D2 A2 D3 G3 B3 E4 (lowest string first)' },
  capo: { read: put('capoFret', (text) => wholeNumber(text, 0, 12)), form: 'capo 0 to 12' },
  key: { read: put('key', keyOfText), form: 'key D major' },
  meter: { read: put('meter', meterOfText), form: 'meter 4/4' },
  tempo: { read: put('quartersPerMinute', (text) => wholeNumber(text, 20, 300)), form: 'tempo 20 to 300' },
  line: {
    read: (draft, text) => {
      const line = lineOfText(text);
      if (line === null || draft.lines.some((other) => other.letter === line.letter)) return false;
      draft.lines.push(line);
      return true;
    },
    form: 'line M "Melody" melody madder stems up (each letter once)',
  },
};

/** An empty heading to be filled row by row. */
export const beginHeading = (): Draft => ({ lines: [] });

/** Reads one row of the heading into the draft; what is wrong with it is added to `problems`. */
export function readHeadingRow(draft: Draft, text: string, lineNumber: number, problems: PieceProblem[]): void {
  const word = /^\S+/.exec(text)?.[0] ?? '';
  const reader = readers[word];
  if (reader === undefined) {
    const known = Object.keys(readers).join(', ');
    problems.push({ lineNumber, column: 1, detail: `"${word}" is no row of the heading; these are: ${known}` });
    return;
  }
  const rest = text.slice(word.length);
  if (!reader.read(draft, rest.trim()))
    problems.push({
      lineNumber,
      column: text.length - rest.trimStart().length + 1,
      detail: `expected: ${reader.form}`,
    });
}

/** The finished heading; null where a row is missing, with the problem told. */
export function finishHeading(draft: Draft, lineNumber: number, problems: PieceProblem[]): Heading | null {
  const { title, composer, tuning, capoFret = 0, key, meter, quartersPerMinute, lines } = draft;
  if (!title || !composer || !tuning || !key || !meter || !quartersPerMinute || lines.length === 0) {
    const detail =
      'the heading needs title, composer, tuning, key, meter, tempo and at least one line before the first bar';
    problems.push({ lineNumber, column: 1, detail });
    return null;
  }
  return { title, composer, tuning, capoFret, key, meter, quartersPerMinute, lines };
}
