import { meterOfText, type TabMeter } from './meter.ts';
import type { TextLine } from './text-line.ts';
import { tuningOfWords } from './tuning.ts';

/** What the words at the head of a tablature say about it. */
export interface Heading {
  readonly title: string;
  readonly composer: string;
  readonly capoFret: number;
  readonly quartersPerMinute: number | null;
  readonly meter: TabMeter | null;
  readonly fifths: number;
  readonly mode: 'major' | 'minor' | null;
  /** The lines that said it. */
  readonly used: ReadonlySet<TextLine>;
}

const romanFrets = ['', 'i', 'ii', 'iii', 'iv', 'v', 'vi', 'vii', 'viii', 'ix', 'x', 'xi'];

/** The fret of a capo over all strings, or null. */
function capoOf(text: string): number | null {
  if (/partial|half|split|strings?\b/i.test(text)) return null;
  const match = /\bcapo\b[^\d\n]{0,16}?(?:(\d{1,2})(?!\d)|\b([ivx]{1,4})\b)/i.exec(text);
  if (match === null) return /\bno capo\b|\bcapo\s*:?\s*(?:none|no)\b/i.test(text) ? 0 : null;
  const fret = match[1] === undefined ? romanFrets.indexOf((match[2] ?? '').toLowerCase()) : Number(match[1]);
  return fret >= 0 && fret <= 11 ? fret : null;
}

function tempoOf(text: string): number | null {
  const match = /(?:\btempo\b\D{0,8}|[♩q]\s?=\s?)(\d{2,3})\b|\b(\d{2,3})\s?bpm\b/i.exec(text);
  const tempo = Number(match?.[1] ?? match?.[2]);
  return tempo >= 20 && tempo <= 400 ? tempo : null;
}

function meterOf(text: string): TabMeter | null {
  const said =
    /(?:\btime(?:\s+signature)?\b\s*[:=]?\s*|\bmeter\s*[:=]?\s*|\bin\s+)(\d{1,2}\s?\/\s?\d{1,2})(?!\d)/i.exec(text);
  return meterOfText(said?.[1] ?? text);
}

const sharpsOf: Readonly<Record<string, number>> = { F: -1, C: 0, G: 1, D: 2, A: 3, E: 4, B: 5 };

interface SaidKey {
  readonly fifths: number;
  readonly mode: 'major' | 'minor';
}

/** **Source** common practice, no source: the circle of fifths, a minor key three fifths below the major one. */
function keyOf(text: string): SaidKey | null {
  const match = /^\s*key\b(?:\s+of)?\s*[:=]?\s*([A-G])([#b♯♭]?)\s*(m(?!aj)|min|minor)?/i.exec(text);
  const natural = sharpsOf[(match?.[1] ?? '').toUpperCase()];
  if (match === null || natural === undefined) return null;
  const altered = /[#♯]/.test(match[2] ?? '') ? 7 : match[2] === '' ? 0 : -7;
  const mode = match[3] === undefined ? 'major' : 'minor';
  const fifths = natural + altered - (mode === 'minor' ? 3 : 0);
  return Math.abs(fifths) <= 7 ? { fifths, mode } : null;
}

const afterBy = (text: string): string | null => /^\s*by:? (\S.*)$/i.exec(text)?.[1] ?? null;

const fieldOf = (text: string, names: RegExp): string | null => {
  const match = /^\s*([A-Za-z ]+?)\s*:\s*(\S.*)$/.exec(text);
  return match !== null && names.test(match[1] ?? '') ? (match[2] ?? '').trim() : null;
};

/** The first value that some line gives, with the line. */
function firstOf<Value>(
  lines: readonly TextLine[],
  read: (text: string) => Value | null,
  used: Set<TextLine>,
): Value | null {
  for (const line of lines) {
    const value = read(line.text);
    if (value === null) continue;
    used.add(line);
    return value;
  }
  return null;
}

const longestField = 200;

/** Reads what is said before the music; each line that says something is used, the others are left for words. */
export function headingOf(all: readonly TextLine[]): Heading {
  const lines = all.filter(({ text }) => text.length <= longestField);
  const used = new Set<TextLine>();
  const title = firstOf(lines, (text) => fieldOf(text, /^(?:title|song|name)$/i), used);
  const composer = firstOf(
    lines,
    (text) => fieldOf(text, /^(?:artist|composer|author|written by|music)$/i) ?? afterBy(text),
    used,
  );
  const capoFret = firstOf(lines, capoOf, used);
  const quartersPerMinute = firstOf(lines, tempoOf, used);
  const meter = firstOf(lines, meterOf, used);
  const key = firstOf(lines, keyOf, used);
  firstOf(lines, tuningOfWords, used);
  return {
    title: title ?? '',
    composer: composer ?? '',
    capoFret: capoFret ?? 0,
    quartersPerMinute,
    meter,
    fifths: key?.fifths ?? 0,
    mode: key?.mode ?? null,
    used,
  };
}
