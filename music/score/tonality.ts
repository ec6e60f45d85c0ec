import { accidentalOf } from '../basis/pitch.ts';
import type { Tone } from './marks.ts';
import type { Score } from './score.ts';
import type { Key } from './signatures.ts';

/** A step of a scale, from 1 for its tonic, and how far it is raised (above 0) or lowered. **Units** `alter` in semitones. */
interface ScaleDegree {
  readonly degree: number;
  readonly alter: number;
}

/** Letters by fifths, each a fifth above the one before. */
const lettersByFifths = ['F', 'C', 'G', 'D', 'A', 'E', 'B'] as const;
const fifthsPerSharp = 7;
const fifthsToRelativeMinor = 3;

/** Degrees by fifths, from the one that lies farthest below the tonic. */
const majorByFifths = [4, 1, 5, 2, 6, 3, 7] as const;
const minorByFifths = [6, 3, 7, 4, 1, 5, 2] as const;
const fifthsBelowTonic = { major: 1, minor: 4 } as const;

const wrapped = (index: number): number => ((index % fifthsPerSharp) + fifthsPerSharp) % fifthsPerSharp;

/** The tone so many fifths above this one (below where negative), spelled by its letter: a fifth above B is F♯. */
export function toneByFifths({ step, alter }: Tone, fifths: number): Tone {
  const place = lettersByFifths.indexOf(step) + fifths;
  return {
    step: lettersByFifths[wrapped(place)] as Tone['step'],
    alter: alter + Math.floor(place / fifthsPerSharp),
  };
}

const middleTone: Tone = { step: 'C', alter: 0 };

/** The tone that a key is named after: a minor key by its own tonic; a signature without a mode as a major key. */
export const tonicOf = ({ fifths, mode }: Key): Tone =>
  toneByFifths(middleTone, fifths + (mode === 'minor' ? fifthsToRelativeMinor : 0));

const fifthsFromC = ({ step, alter }: Tone): number =>
  lettersByFifths.indexOf(step) - lettersByFifths.indexOf('C') + fifthsPerSharp * alter;

/** The degree of a tone in a key, altered against that key's own scale: C in A minor is 3, G♯ is raised 7. */
export function degreeOf(tone: Tone, key: Key): ScaleDegree {
  const mode = key.mode ?? 'major';
  const whole = { ...tone, alter: Math.round(tone.alter) };
  const place = fifthsFromC(whole) - fifthsFromC(tonicOf(key)) + fifthsBelowTonic[mode];
  return {
    degree: (mode === 'minor' ? minorByFifths : majorByFifths)[wrapped(place)] as number,
    alter: Math.floor(place / fifthsPerSharp) + (tone.alter - whole.alter),
  };
}

/** A degree as it is written: `3`, `♯4`, `♭7`. */
export const degreeText = ({ degree, alter }: ScaleDegree): string => `${accidentalOf(alter)}${degree}`;

/** How a key's signature alters a letter: 1, −1 or 0. **Source** common practice, no source. */
export function alterationInKey(step: Tone['step'], fifths: number): number {
  const place = lettersByFifths.indexOf(step);
  if (fifths > 0) return place < fifths ? 1 : 0;
  return fifthsPerSharp - 1 - place < -fifths ? -1 : 0;
}

/** The syllables of the major scale, and of its degrees raised and lowered by a semitone. **Source** common practice, no source. */
const syllables = ['do', 're', 'mi', 'fa', 'sol', 'la', 'ti'] as const;
const raisedSyllables: Readonly<Record<number, string>> = { 1: 'di', 2: 'ri', 4: 'fi', 5: 'si', 6: 'li' };
const loweredSyllables: Readonly<Record<number, string>> = { 2: 'ra', 3: 'me', 5: 'se', 6: 'le', 7: 'te' };

/** The syllable of a tone with a movable do: do is the tonic of a major key, la that of a minor key. */
export function solfaOf(tone: Tone, { fifths }: Key): string {
  const { degree, alter } = degreeOf(tone, { fifths, mode: 'major' });
  const altered = alter === 1 ? raisedSyllables[degree] : alter === -1 ? loweredSyllables[degree] : undefined;
  return altered ?? `${syllables[degree - 1] as string}${accidentalOf(alter)}`;
}

/** The key that holds at a moment, as it sounds; no sharps and flats where the score has no bars. */
export function keyAt({ bars, keyChanges }: Pick<Score, 'bars' | 'keyChanges'>, ticks: number): Key {
  const bar = bars.findLast(({ onsetTicks }) => onsetTicks <= ticks) ?? bars[0];
  if (bar === undefined) return { fifths: 0, mode: null };
  const change = keyChanges.findLast(({ onsetTicks }) => onsetTicks <= ticks && onsetTicks > bar.onsetTicks);
  return change?.key ?? bar.key;
}
