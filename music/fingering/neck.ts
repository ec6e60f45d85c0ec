import type { Fingerboard, SoundingNote, Tuning } from '../score/score.ts';

/** A guitar's neck above the capo. */
export interface Neck {
  /** What each string sounds like open, at the capo, string 1 first. **Units** MIDI note numbers. */
  readonly open: Tuning;
  /** Counted from the capo. */
  readonly highestFret: number;
}

/** The neck of a tuning with a capo; `mostFrets` counts from the nut. */
export const neckOf = (tuning: Tuning, capo: number, mostFrets: number): Neck => ({
  open: tuning.map((midi) => midi + capo),
  highestFret: Math.max(0, mostFrets - capo),
});

/** Where a string is touched for its natural harmonics, and how far above the open string they sound: partials 2 to 5. **Units** frets, semitones. **Source** common practice, no source. */
const harmonics: readonly (readonly [fret: number, semitones: number])[] = [
  [12, 12],
  [7, 19],
  [5, 24],
  [4, 28],
];

function fretsOn(open: number, midi: number, isHarmonic: boolean, { highestFret }: Neck): number[] {
  const distance = midi - open;
  if (!isHarmonic) return distance >= 0 && distance <= highestFret && Number.isInteger(distance) ? [distance] : [];
  return harmonics.flatMap(([fret, semitones]) => (semitones === distance && fret <= highestFret ? [fret] : []));
}

/** Every place where a note can be played, from string 1 on; a place that the source gives is the only one; empty for a hit. */
export function placesOf(note: SoundingNote, neck: Neck): readonly Fingerboard[] {
  if (note.sound.kind !== 'pitched') return [];
  if (note.fingerboard !== null && note.fingerboard.string <= neck.open.length) return [note.fingerboard];
  const { soundingMidi } = note.sound;
  const isHarmonic = note.techniques.includes('naturalHarmonic');
  return neck.open.flatMap((open, index) =>
    fretsOn(open, soundingMidi, isHarmonic, neck).map((fret) => ({ string: index + 1, fret })),
  );
}
