import type { Pitch } from '../../basis/pitch.ts';
import { clefOf } from './abc-clefs.ts';

type Step = Pitch['step'];

/** A key: its signature, its mode, and alterations of single steps beside it. */
export interface AbcKey {
  readonly fifths: number;
  readonly mode: string | null;
  /** Alterations by step that hold through the tune: the signature's own and those that are listed. */
  readonly alters: Readonly<Partial<Record<Step, number>>>;
  readonly isExplicit: boolean;
}

const stepsBySharps: readonly Step[] = ['F', 'C', 'G', 'D', 'A', 'E', 'B'];

/** Fifths above the major key on the same tonic. **Source** ABC 2.1, K: field, from memory. */
const fifthsOfMode: Readonly<Record<string, number>> = {
  ion: 0,
  maj: 0,
  mix: -1,
  dor: -2,
  min: -3,
  m: -3,
  aeo: -3,
  phr: -4,
  loc: -5,
  lyd: 1,
};

/** The mode's name in MusicXML. **Source** MusicXML 4.0, mode. */
const modeNames: Readonly<Record<string, string>> = {
  ion: 'major',
  maj: 'major',
  mix: 'mixolydian',
  dor: 'dorian',
  min: 'minor',
  m: 'minor',
  aeo: 'minor',
  phr: 'phrygian',
  loc: 'locrian',
  lyd: 'lydian',
};

/** The alterations of a signature by step. */
export function altersOfSignature(fifths: number): Partial<Record<Step, number>> {
  const alters: Partial<Record<Step, number>> = {};
  const count = Math.min(7, Math.abs(fifths));
  const steps = fifths >= 0 ? stepsBySharps : stepsBySharps.toReversed();
  for (const step of steps.slice(0, count)) alters[step] = Math.sign(fifths);
  return alters;
}

const fifthsOfTonic = (step: Step, sign: string): number =>
  stepsBySharps.indexOf(step) - 1 + (sign === '#' ? 7 : sign === 'b' ? -7 : 0);

const alterOfSign: Readonly<Record<string, number>> = { '^^': 2, '^': 1, '=': 0, _: -1, __: -2 };

const noKey: AbcKey = { fifths: 0, mode: null, alters: {}, isExplicit: false };

function listedAlters(text: string): Partial<Record<Step, number>> {
  const alters: Partial<Record<Step, number>> = {};
  for (const [, sign = '', letter = ''] of text.matchAll(/(?:^|\s)(\^\^|\^|=|__|_)([A-Ga-g])(?=\s|$)/g)) {
    const step = letter.toUpperCase() as Step;
    alters[step] = alterOfSign[sign] ?? 0;
  }
  return alters;
}

/** The key that a K: field names; null where it names none that is understood. **Source** ABC 2.1, K: field, from memory. */
export function keyOf(field: string): AbcKey | null {
  const text = field.trim();
  if (/^none\b/i.test(text) || text === '') return noKey;
  if (/^H[Pp]\b/.test(text)) {
    const alters = text.startsWith('Hp') ? altersOfSignature(2) : {};
    return { fifths: text.startsWith('Hp') ? 2 : 0, mode: null, alters, isExplicit: false };
  }
  const match = /^([A-G])([#b]?)\s*(.*)$/s.exec(text);
  if (match === null) return clefOf(text.split(/\s/)[0] ?? '') === null && !text.includes('=') ? null : noKey;
  const [, tonic = 'C', sign = '', rest = ''] = match;
  const [modeWord = ''] = /^[A-Za-z]+/.exec(rest) ?? [];
  const isMode =
    !/^(exp|clef|treble|bass|alto|tenor|perc|octave|middle|transpose|stafflines|staffscale|none|tab)/i.test(modeWord);
  const short = modeWord.toLowerCase().slice(0, 3);
  const key = !isMode || modeWord === '' ? 'maj' : modeWord === 'm' || short === 'm' ? 'm' : short;
  const isExplicit = /\bexp\b/i.test(rest);
  const listed = listedAlters(rest);
  if (isExplicit) return { fifths: 0, mode: null, alters: listed, isExplicit: true };
  const shift = fifthsOfMode[key];
  if (shift === undefined) return null;
  const fifths = fifthsOfTonic(tonic as Step, sign) + shift;
  if (Math.abs(fifths) > 7) return null;
  return {
    fifths,
    mode: modeNames[key] ?? null,
    alters: { ...altersOfSignature(fifths), ...listed },
    isExplicit: false,
  };
}
