import type { Pitch } from '../../basis/pitch.ts';

/** One written note: its own accidental, or null where it has none. */
export interface NoteToken {
  readonly kind: 'note';
  readonly accidental: number | null;
  readonly step: Pitch['step'];
  readonly octave: number;
  readonly length: string;
  readonly isTied: boolean;
}

type Content =
  | NoteToken
  | { readonly kind: 'rest'; readonly isWholeBars: boolean; readonly isVisible: boolean; readonly length: string }
  | { readonly kind: 'chordStart' | 'graceEnd' | 'slurStart' | 'slurEnd' | 'space' | 'skipped' }
  | { readonly kind: 'overlay'; readonly bars: number }
  | { readonly kind: 'chordEnd'; readonly length: string; readonly isTied: boolean }
  | { readonly kind: 'graceStart'; readonly hasSlash: boolean }
  | { readonly kind: 'bar'; readonly text: string; readonly endings: string }
  | { readonly kind: 'ending'; readonly endings: string }
  | { readonly kind: 'tuplet'; readonly actual: number; readonly normal: number | null; readonly count: number | null }
  | { readonly kind: 'broken'; readonly isLongFirst: boolean; readonly count: number }
  | { readonly kind: 'quoted' | 'decoration' | 'unknown'; readonly text: string }
  | { readonly kind: 'field'; readonly letter: string; readonly text: string };

/** A thing that stands in a line of music. **Units** `column` from 1. */
export type AbcToken = Content & { readonly column: number };

const alterOf: Readonly<Record<string, number>> = {
  '^': 1,
  '^^': 2,
  '=': 0,
  _: -1,
  __: -2,
  '^/': 0.5,
  '_/': -0.5,
  '^3/': 1.5,
  '^3/2': 1.5,
  '_3/': -1.5,
  '_3/2': -1.5,
  '^1/2': 0.5,
  '_1/2': -0.5,
};

const octaveMarks = (marks: string): number => marks.split("'").length - marks.split(',').length;

/** A letter is in the octave of middle C where it is a capital, else an octave higher. **Source** ABC 2.1, pitch, from memory. */
function noteToken(parts: readonly string[]): NoteToken {
  const [, sign = '', letter = 'C', marks = '', length = '', tie = ''] = parts;
  return {
    kind: 'note',
    accidental: sign === '' ? null : (alterOf[sign] ?? 0),
    step: letter.toUpperCase() as Pitch['step'],
    octave: (letter === letter.toUpperCase() ? 4 : 5) + octaveMarks(marks),
    length,
    isTied: tie !== '',
  };
}

const numberOrNull = (text: string | undefined): number | null =>
  text === undefined || text === '' ? null : Math.min(99, Number(text));

/** The decorations that one sign stands for. **Source** ABC 2.1, decorations, from memory. */
const shortDecorations: Readonly<Record<string, string>> = {
  '.': 'staccato',
  '~': 'roll',
  H: 'fermata',
  L: 'accent',
  M: 'lowermordent',
  O: 'coda',
  P: 'uppermordent',
  S: 'segno',
  T: 'trill',
  u: 'upbow',
  v: 'downbow',
};

type Rule = readonly [RegExp, (parts: readonly string[]) => Content];

/** Tried in order at each place of a line. */
const rules: readonly Rule[] = [
  [/%.*/y, () => ({ kind: 'skipped' })],
  [/\s+|y\d*\/?\d*/y, () => ({ kind: 'space' })],
  [/[`$*;?@]+|\\\s*$/y, () => ({ kind: 'skipped' })],
  [/\[([A-Za-z]):([^\]]*)\]/y, ([, letter = '', text = '']) => ({ kind: 'field', letter, text: text.trim() })],
  [
    /\.?((?::+\|+|\|)[\]|:]*:*|\[\|[\]:]*|\|\]:*|::+\|?:*)\s*(?:\[?(\d[\d,-]*))?/y,
    ([, text = '', endings = '']) => ({ kind: 'bar', text, endings }),
  ],
  [
    /\[(?:(\d[\d,-]*)|"([^"]*)"(?![^|\s]*\]))/y,
    ([, list = '', text = '']) => ({ kind: 'ending', endings: list || text }),
  ],
  [/"((?:\\"[AEIOUYaeiouy]|[^"])*)"/y, ([, text = '']) => ({ kind: 'quoted', text })],
  [/!([^!\s|]+)!|\+([^+\s|]+)\+/y, ([, text = '', old = '']) => ({ kind: 'decoration', text: text || old })],
  [/(\^\^|\^3\/2?|\^1\/2|\^\/|\^|=|__|_3\/2?|_1\/2|_\/|_)?([A-Ga-g])([',]*)(\d*\/*\d*)(?:\s*(\.?-))?/y, noteToken],
  [
    /([zxZX])(\d*\/*\d*)/y,
    ([, letter = 'z', length = '']) => ({
      kind: 'rest',
      isWholeBars: letter === 'Z' || letter === 'X',
      isVisible: letter === 'z' || letter === 'Z',
      length,
    }),
  ],
  [/\{(\/?)/y, ([, slash = '']) => ({ kind: 'graceStart', hasSlash: slash !== '' })],
  [/\}/y, () => ({ kind: 'graceEnd' })],
  [
    /\((\d+(?=:)|\d)(?::(\d*)(?::(\d*))?)?/y,
    ([, actual = '3', normal, count]) => ({
      kind: 'tuplet',
      actual: Number(actual),
      normal: numberOrNull(normal),
      count: numberOrNull(count),
    }),
  ],
  [/\.?\(/y, () => ({ kind: 'slurStart' })],
  [/\)/y, () => ({ kind: 'slurEnd' })],
  [/\[/y, () => ({ kind: 'chordStart' })],
  [/\](\d*\/*\d*)(?:\s*(\.?-))?/y, ([, length = '', tie = '']) => ({ kind: 'chordEnd', length, isTied: tie !== '' })],
  [
    /(>+|<+)/y,
    ([, signs = '>']) => ({ kind: 'broken', isLongFirst: signs.startsWith('>'), count: Math.min(6, signs.length) }),
  ],
  [/&+/y, ([signs = '&']) => ({ kind: 'overlay', bars: signs.length })],
  [/[.~HLMOPSTuv]/y, ([sign = '.']) => ({ kind: 'decoration', text: shortDecorations[sign] ?? sign })],
  [/[h-w](?![a-z])/y, ([letter = '']) => ({ kind: 'decoration', text: letter })],
];

function tokenAt(text: string, at: number): { readonly content: Content; readonly length: number } {
  for (const [pattern, contentOf] of rules) {
    pattern.lastIndex = at;
    const match = pattern.exec(text);
    if (match !== null && match[0].length > 0) return { content: contentOf(match), length: match[0].length };
  }
  return { content: { kind: 'unknown', text: text.charAt(at) }, length: 1 };
}

/** What stands in a line of music, from left to right, comments left out; white space breaks beams. **Source** ABC 2.1, the tune body, from memory. */
export function tokensOf(text: string): AbcToken[] {
  const tokens: AbcToken[] = [];
  for (let at = 0; at < text.length;) {
    const { content, length } = tokenAt(text, at);
    if (content.kind !== 'skipped') tokens.push({ ...content, column: at + 1 });
    at += length;
  }
  return tokens;
}
