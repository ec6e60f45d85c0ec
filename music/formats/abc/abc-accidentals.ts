import type { Pitch } from '../../basis/pitch.ts';

/** How far an accidental reaches within its bar: not beyond its note, to the same octave, or to the letter in every octave. **Source** ABC 2.1, propagate-accidentals, from memory; every octave where the file does not say. */
export type AccidentalReach = 'not' | 'octave' | 'pitch';

interface Said {
  readonly alter: number;
  /** Where it was written. */
  readonly octave: number;
}

const placeOf = (step: Pitch['step'], octave: number, reach: AccidentalReach): string =>
  reach === 'pitch' ? step : `${step}${octave}`;

/** The accidentals that a bar has said so far. */
export class SaidAccidentals {
  private readonly byPlace = new Map<string, Said>();

  say(step: Pitch['step'], octave: number, alter: number, reach: AccidentalReach): void {
    if (reach !== 'not') this.byPlace.set(placeOf(step, octave, reach), { alter, octave });
  }

  /** What holds for a note without an accidental of its own; null where only the key holds. */
  said(step: Pitch['step'], octave: number, reach: AccidentalReach): Said | null {
    return this.byPlace.get(placeOf(step, octave, reach)) ?? null;
  }

  clear(): void {
    this.byPlace.clear();
  }
}
