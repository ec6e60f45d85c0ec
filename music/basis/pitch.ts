/** A spelled pitch: letter, alteration in semitones (may be fractional for quarter tones) and octave, C4 being middle C. */
export interface Pitch {
  readonly step: 'C' | 'D' | 'E' | 'F' | 'G' | 'A' | 'B';
  readonly alter: number;
  readonly octave: number;
}

const semitonesOfStep: Readonly<Record<Pitch['step'], number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };

/** The MIDI note number of a spelled pitch; 60 is C4. **Source** MIDI 1.0 Detailed Specification, note numbers. */
export const midiOf = (pitch: Pitch): number => 12 * (pitch.octave + 1) + semitonesOfStep[pitch.step] + pitch.alter;

const accidentals: Readonly<Record<number, string>> = { [-2]: '𝄫', [-1]: '♭', 0: '', 1: '♯', 2: '𝄪' };

/** The sign of an alteration by whole semitones; empty for any other. **Units** semitones, −2 to 2. */
export const accidentalOf = (alter: number): string => accidentals[alter] ?? '';

/** The letter with its accidental, without an octave: `F♯`. */
export const nameOf = (pitch: Pitch): string => pitch.step + accidentalOf(pitch.alter);

const sharpSpelling: readonly (readonly [Pitch['step'], number])[] = [
  ['C', 0],
  ['C', 1],
  ['D', 0],
  ['D', 1],
  ['E', 0],
  ['F', 0],
  ['F', 1],
  ['G', 0],
  ['G', 1],
  ['A', 0],
  ['A', 1],
  ['B', 0],
];
const flatSpelling: readonly (readonly [Pitch['step'], number])[] = [
  ['C', 0],
  ['D', -1],
  ['D', 0],
  ['E', -1],
  ['E', 0],
  ['F', 0],
  ['G', -1],
  ['G', 0],
  ['A', -1],
  ['A', 0],
  ['B', -1],
  ['B', 0],
];

/** A spelling of a MIDI note number that suits a key: sharps where `fifths` is 0 or more, else flats. */
export function pitchOfMidi(midi: number, fifths: number): Pitch {
  const spelling = fifths < 0 ? flatSpelling : sharpSpelling;
  const [step, alter] = spelling[((midi % 12) + 12) % 12] as readonly [Pitch['step'], number];
  return { step, alter, octave: Math.floor((midi - alter) / 12) - 1 };
}

/** The pitch moved by whole octaves, its spelling kept. */
export const shiftOctaves = (pitch: Pitch, octaves: number): Pitch => ({ ...pitch, octave: pitch.octave + octaves });
