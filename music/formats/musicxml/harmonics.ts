import { midiOf } from '../../basis/pitch.ts';
import type { Fingerboard, Part, Technique } from '../../score/score.ts';
import type { RawHead } from './raw-part.ts';

/** How far above the open string a natural harmonic sounds, by the fret over which it is touched: partials 2 to 6 of the string. **Units** semitones. **Source** common practice, no source. */
const partialByFret: ReadonlyMap<number, number> = new Map([
  [12, 12],
  [7, 19],
  [19, 19],
  [5, 24],
  [24, 24],
  [4, 28],
  [9, 28],
  [16, 28],
  [3, 31],
]);

/** How far above its written pitch a natural harmonic sounds: 0 where the pitch is the sounding one already, more where it is the one under the touching finger. **Units** semitones. */
export function harmonicLift(
  { pitch }: Pick<RawHead, 'pitch'>,
  place: Fingerboard | null,
  techniques: readonly Technique[],
  { tuning, capoFret, soundingShift }: Pick<Part, 'tuning' | 'capoFret' | 'soundingShift'>,
): number {
  if (pitch === null || place === null || !techniques.includes('naturalHarmonic')) return 0;
  const open = tuning?.[place.string - 1];
  const partial = partialByFret.get(place.fret);
  if (open === undefined || partial === undefined) return 0;
  const isTouched = midiOf(pitch) + soundingShift === open + capoFret + place.fret;
  return isTouched ? partial - place.fret : 0;
}
