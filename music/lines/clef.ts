import type { Pitch } from '../basis/pitch.ts';
import type { SoundingNote } from '../score/score.ts';
import type { WrittenClef } from '../score/written.ts';

const stepNumbers: Readonly<Record<Pitch['step'], number>> = { C: 0, D: 1, E: 2, F: 3, G: 4, A: 5, B: 6 };
const staffPlace = (pitch: Pitch): number => pitch.octave * 7 + stepNumbers[pitch.step];

interface ClefChoice {
  readonly clef: WrittenClef;
  /** The staff places of the lowest and highest line. */
  readonly lowest: number;
  readonly highest: number;
}

const choice = (clef: WrittenClef, lowest: Pitch): ClefChoice => ({
  clef,
  lowest: staffPlace(lowest),
  highest: staffPlace(lowest) + 8,
});

const plainTreble: WrittenClef = { sign: 'G', staffLine: 2, octave: 0 };

/** In the order in which equals are preferred. */
const choices: readonly ClefChoice[] = [
  choice(plainTreble, { step: 'E', alter: 0, octave: 4 }),
  choice({ sign: 'G', staffLine: 2, octave: -1 }, { step: 'E', alter: 0, octave: 3 }),
  choice({ sign: 'F', staffLine: 4, octave: 0 }, { step: 'G', alter: 0, octave: 2 }),
];

const beyondStaff = (place: number, { lowest, highest }: ClefChoice): number =>
  Math.max(0, lowest - place, place - highest);

/** The clef with the least beyond its staff at sounding pitch; the percussion clef for a line of hits alone. */
export function clefFor(notes: readonly SoundingNote[], isPercussion: boolean): WrittenClef {
  const places = notes.flatMap(({ sound }) => (sound.kind === 'pitched' ? [staffPlace(sound.sounding)] : []));
  if (places.length === 0) return notes.length > 0 || isPercussion ? { sign: 'percussion' } : plainTreble;
  const costs = choices.map((candidate) => places.reduce((sum, place) => sum + beyondStaff(place, candidate), 0));
  return choices[costs.indexOf(Math.min(...costs))]?.clef ?? plainTreble;
}
