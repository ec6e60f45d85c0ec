import type { Pitch } from '../../basis/pitch.ts';
import type { Key } from '../../score/score.ts';

const stepsByFifths: readonly Pitch['step'][] = ['F', 'C', 'G', 'D', 'A', 'E', 'B'];

/** The places on the line of fifths (C = 0) that a key reaches down from its signature: to the lowered sixth in major, so that the first and fourth are raised rather than the second and fifth lowered; to the lowered fifth in minor, so that the raised seventh is within. **Source** common practice, no source. */
const reachBelow = { major: 4, minor: 3 } as const;

/** The lowest of the twelve neighbouring fifths that a key spells with; a key without a mode is spelled as major. */
const lowestFifth = ({ fifths, mode }: Key): number => fifths - reachBelow[mode ?? 'major'];

const modulo = (value: number, by: number): number => ((value % by) + by) % by;

/** The spelling of a MIDI note number within the twelve fifths around a key. */
export function spellPitch(midi: number, key: Key): Pitch {
  const lowest = lowestFifth(key);
  const fifth = lowest + modulo(midi * 7 - lowest, 12);
  const alter = Math.floor((fifth + 1) / 7);
  const step = stepsByFifths[modulo(fifth + 1, 7)] ?? 'C';
  return { step, alter, octave: Math.floor((midi - alter) / 12) - 1 };
}

/** The signature that the most sounding time needs no accidental in; of equals the one with the fewest signs, sharps first. **Units** seconds, ticks or whatever `weight` counts. */
export function likelySignature(notes: readonly { readonly midi: number; readonly weight: number }[]): number {
  const byFifth = Array.from({ length: 12 }, () => 0);
  for (const { midi, weight } of notes) {
    const place = modulo(midi * 7, 12);
    byFifth[place] = (byFifth[place] ?? 0) + weight;
  }
  const within = (fifths: number): number =>
    Array.from({ length: 7 }, (_, step) => byFifth[modulo(fifths - 1 + step, 12)] ?? 0).reduce(
      (sum, part) => sum + part,
      0,
    );
  let best = 0;
  for (const fifths of [1, -1, 2, -2, 3, -3, 4, -4, 5, -5, 6]) if (within(fifths) > within(best)) best = fifths;
  return best;
}

/** Whether a piece whose last lowest note is this one is in the minor key of a signature: it ends on that key's tonic. **Source** common practice, no source. */
export const endsInMinor = (lastMidi: number, fifths: number): boolean => modulo(lastMidi * 7 - (fifths + 3), 12) === 0;
