import { midiOf, pitchOfMidi, shiftOctaves, type Pitch } from '../../basis/pitch.ts';

/** The pitch moved by semitones: by whole octaves with its spelling, else spelled to suit the key that it sounds in. */
export function transposedPitch(pitch: Pitch, semitones: number, soundingFifths: number): Pitch {
  if (semitones === 0) return pitch;
  if (semitones % 12 === 0) return shiftOctaves(pitch, semitones / 12);
  const midi = midiOf(pitch) + semitones;
  const whole = Math.round(midi);
  const spelled = pitchOfMidi(whole, soundingFifths);
  return midi === whole ? spelled : { ...spelled, alter: spelled.alter + midi - whole };
}
