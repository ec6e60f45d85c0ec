import { saysGuitar } from '../../score/arrangement.ts';
import type { Tuning } from '../../score/score.ts';
import { staffKindOf, type RawPart, type StaffKind } from './raw-part.ts';

/** Six strings in standard tuning, string 1 first. **Source** common practice, no source. */
export const standardTuning: Tuning = [64, 59, 55, 50, 45, 40];

/** A tuning as it sounds: one of six strings that lies an octave above the guitar's is written at the guitar's usual octave. */
export const soundingTuning = (tuning: Tuning): Tuning =>
  tuning.length >= 6 && (tuning[0] ?? 0) >= 72 ? tuning.map((midi) => midi - 12) : tuning;

/** The guitars of General MIDI, programs from 1. **Source** General MIDI Level 1 sound set, 25 to 32. */
const isGuitarProgram = (program: number): boolean => program >= 25 && program <= 32;

/** The staves of a part that hold heads or are declared, from the first. */
export const staffKindsOf = (part: RawPart): StaffKind[] =>
  Array.from({ length: Math.max(1, part.staffCount) }, (_, index) => staffKindOf(part, index + 1));

/** Whether a part's name, sound, tuning, tablature or fret numbers say that strings are plucked against frets. */
export function isFretted(part: RawPart): boolean {
  if (part.tuning !== null || staffKindsOf(part).includes('tablature')) return true;
  return isGuitarNamed(part) || part.heads.some((head) => head.fingerboard !== null);
}

/** Whether a part's name or sound says guitar. */
export const isGuitarNamed = (part: RawPart): boolean =>
  saysGuitar(part.description) || part.programs.some(isGuitarProgram);
