import { nameOf, pitchOfMidi, type Part } from '../../music/index.ts';

/** Strings from the lowest, as guitarists name a tuning: `D A D G B E`. */
export const tuningWords = (tuning: readonly number[]): string =>
  [...tuning]
    .reverse()
    .map((midi) => nameOf(pitchOfMidi(midi, -1)))
    .join(' ');

const usualTuning = 'E A D G B E';

/** What a player sets up before the first note: a tuning that is not the usual one, a capo; empty where there is nothing to do. */
export function setUpWords(parts: readonly Pick<Part, 'tuning' | 'capoFret'>[]): string {
  const tuning = parts.find((part) => part.tuning !== null)?.tuning ?? null;
  const names = tuning === null ? usualTuning : tuningWords(tuning);
  const capoFret = Math.max(0, ...parts.map((part) => part.capoFret));
  const words = [names === usualTuning ? '' : `Tuning ${names}`, capoFret === 0 ? '' : `capo ${capoFret}`];
  return words.filter((word) => word !== '').join(' · ');
}
