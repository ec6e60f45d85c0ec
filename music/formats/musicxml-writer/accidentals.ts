import type { Pitch } from '../../basis/pitch.ts';
import { alterationInKey } from '../../score/tonality.ts';

/** Names of the accidentals by their alterations. **Source** MusicXML 4.0, accidental-value. */
export const accidentalNames: Readonly<Record<string, string>> = {
  '-3': 'triple-flat',
  '-2': 'flat-flat',
  '-1.5': 'three-quarters-flat',
  '-1': 'flat',
  '-0.5': 'quarter-flat',
  '0': 'natural',
  '0.5': 'quarter-sharp',
  '1': 'sharp',
  '1.5': 'three-quarters-sharp',
  '2': 'double-sharp',
  '3': 'triple-sharp',
};

/** Which accidentals of one bar of one staff must be printed: those that differ from the key or from what the bar has said before. */
export class BarAccidentals {
  private readonly said = new Map<string, number>();
  private readonly fifths: number;

  constructor(fifths: number) {
    this.fifths = fifths;
  }

  /** The accidental to print before a head, or null for none. A head tied from before prints none. */
  before(pitch: Pitch, isTiedFromBefore: boolean): string | null {
    const place = `${pitch.step}${pitch.octave}`;
    const current = this.said.get(place) ?? alterationInKey(pitch.step, this.fifths);
    if (isTiedFromBefore || current === pitch.alter) return null;
    this.said.set(place, pitch.alter);
    return accidentalNames[String(pitch.alter)] ?? null;
  }
}
