import type { Pitch } from '../../basis/pitch.ts';

/** A clef as it is printed; `octaves` is how far its notes sound from where they stand. */
export interface AbcClef {
  readonly sign: 'G' | 'F' | 'C' | 'percussion' | 'TAB';
  readonly line: number;
  readonly octaves: number;
}

/** What a K: or V: field says beside its name. */
export interface AbcStaffing {
  readonly clef: AbcClef | null;
  /** Octaves by which letters are read higher. */
  readonly octaves: number | null;
  /** Semitones from written to sounding. */
  readonly transpose: number | null;
  /** Steps above the C of octave 0 of what is printed on the middle line; null where the clef says it. */
  readonly middleSteps: number | null;
  /** Words that say something which is not read. */
  readonly unread: readonly string[];
}

const clefNames: Readonly<Record<string, Omit<AbcClef, 'octaves'>>> = {
  treble: { sign: 'G', line: 2 },
  g: { sign: 'G', line: 2 },
  bass: { sign: 'F', line: 4 },
  f: { sign: 'F', line: 4 },
  tenor: { sign: 'C', line: 4 },
  alto: { sign: 'C', line: 3 },
  c: { sign: 'C', line: 3 },
  perc: { sign: 'percussion', line: 2 },
  percussion: { sign: 'percussion', line: 2 },
  p: { sign: 'percussion', line: 2 },
  none: { sign: 'G', line: 2 },
  tab: { sign: 'TAB', line: 5 },
};

/** The clef that a word names, with its line and with an 8 or 15 above or below where that is said, or null; a letter alone is a key and no clef. A clef with an 8 sounds an octave from where it is written. **Source** ABC 2.1, clefs and transposition, from memory. */
export function clefOf(word: string): AbcClef | null {
  return /^[A-Ga-g]$/.test(word) ? null : namedClef(word);
}

function namedClef(word: string): AbcClef | null {
  const [, name = '', line = '', octave = ''] = /^([a-z]+)([1-5]?)([+-]8|[+-]15)?$/i.exec(word) ?? [];
  const known = Object.hasOwn(clefNames, name.toLowerCase()) ? clefNames[name.toLowerCase()] : undefined;
  if (known === undefined) return null;
  const octaves = Math.trunc(Number(octave === '' ? 0 : octave) / 7);
  return { ...known, line: line === '' ? known.line : Number(line), octaves };
}

const steps = 'CDEFGAB';

/** Steps above the C of octave 0. */
const stepsOf = (step: Pitch['step'], octave: number): number => steps.indexOf(step) + 7 * octave;

const stepsOfClef: Readonly<Record<AbcClef['sign'], number>> = {
  G: stepsOf('G', 4),
  F: stepsOf('F', 3),
  C: stepsOf('C', 4),
  percussion: stepsOf('G', 4),
  TAB: stepsOf('G', 4),
};

/** The octaves by which letters must be moved so that the one that is meant is printed on the middle line; null where that is no whole number. **Source** ABC 2.1, clefs and transposition: `middle=`, from memory. */
export function octavesOfMiddle(middleSteps: number, clef: AbcClef | null): number | null {
  const { sign, line } = clef ?? { sign: 'G', line: 2 };
  const octaves = (stepsOfClef[sign] + 2 * (3 - line) - middleSteps) / 7;
  return Number.isInteger(octaves) ? octaves : null;
}

function middleOf(text: string): number | null {
  const [, letter = '', marks = ''] = /^([A-Ga-g])([',]*)$/.exec(text) ?? [];
  if (letter === '') return null;
  const step = letter.toUpperCase() as Pitch['step'];
  return stepsOf(step, (letter === step ? 4 : 5) + marks.split("'").length - marks.split(',').length);
}

/** Words about print alone. **Source** ABC 2.1, V: voice, from memory. */
const printed = new Set('name nm snm subname sname stem stems stafflines staffscale scale gstem space'.split(' '));

interface Word {
  readonly whole: string;
  readonly name: string;
  readonly value: string;
}

const integerOf = (value: string): number | null =>
  value !== '' && Number.isInteger(Number(value)) ? Number(value) : null;

/** What one word adds; null where it says something that is not read. */
function saidBy({ whole, name, value }: Word): Partial<AbcStaffing> | null {
  const clef = name === 'clef' ? namedClef(value) : clefOf(whole);
  if (clef !== null) return { clef };
  if (name === '' || printed.has(name)) return {};
  const number = integerOf(value);
  if (name === 'octave' && number !== null) return { octaves: number };
  if (name === 'transpose' && number !== null) return { transpose: number };
  const middle = name === 'middle' || name === 'm' ? middleOf(value) : null;
  return middle === null ? null : { middleSteps: middle };
}

/** What the words after a key or a voice's name say about its staff. */
export function staffingOf(text: string): AbcStaffing {
  const unread: string[] = [];
  let staffing: AbcStaffing = { clef: null, octaves: null, transpose: null, middleSteps: null, unread };
  for (const [whole] of text.matchAll(/[\w-]+="[^"]*"|\S+/g)) {
    const [, name = '', value = ''] = /^([\w-]+)="?([^"]*)"?$/.exec(whole) ?? [];
    const said = saidBy({ whole, name, value });
    if (said === null) unread.push(whole);
    else staffing = { ...staffing, ...said };
  }
  return staffing;
}
