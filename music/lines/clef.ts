import type { Pitch } from '../basis/pitch.ts';
import type { SoundingNote } from '../score/score.ts';
import type { ClefChange, WrittenClef } from '../score/written.ts';
import { clefs } from './ensembles.ts';

const stepNumbers: Readonly<Record<Pitch['step'], number>> = { C: 0, D: 1, E: 2, F: 3, G: 4, A: 5, B: 6 };
const staffPlace = (pitch: Pitch): number => pitch.octave * 7 + stepNumbers[pitch.step];

/** In the order in which equals are preferred. */
const usualClefs: readonly WrittenClef[] = [clefs.treble, clefs.trebleOctaveLower, clefs.bass];

/** Where the pitch that names a clef stands: G4, F3 or C4. **Source** common practice, no source. */
const namedPlace: Readonly<Record<'G' | 'F' | 'C', number>> = { G: 4 * 7 + 4, F: 3 * 7 + 3, C: 4 * 7 };

/** The staff place of the lowest line. */
const lowestLine = (clef: Exclude<WrittenClef, { sign: 'percussion' }>): number =>
  namedPlace[clef.sign] + 7 * clef.octave - 2 * (clef.staffLine - 1);

function beyondStaff(place: number, clef: WrittenClef): number {
  if (clef.sign === 'percussion') return 0;
  const lowest = lowestLine(clef);
  return Math.max(0, lowest - place, place - (lowest + 8));
}

/** What a change of clef must save, counted in staff places beyond the staff, summed over the notes that gain. */
const changeCost = 40;

/** The clef of a staff at its beginning and where it changes. */
export interface StaffClefs {
  readonly clef: WrittenClef;
  readonly changes: readonly ClefChange[];
}

const placesOf = (notes: readonly SoundingNote[], octaves: number): readonly number[] =>
  notes.flatMap(({ sound }) => (sound.kind === 'pitched' ? [staffPlace(sound.sounding) + 7 * octaves] : []));

/** The cheapest clef for every bar that has notes, changes included; earlier choices win among equals. */
function cheapestPath(bars: readonly (readonly number[])[], choices: readonly WrittenClef[]): readonly number[] {
  let costs = choices.map(() => 0);
  const origins = bars.map((places) => {
    const from = choices.map((_clef, index) => {
      const cheapest = costs.indexOf(Math.min(...costs));
      return (costs[cheapest] ?? 0) + changeCost < (costs[index] ?? 0) ? cheapest : index;
    });
    costs = choices.map((clef, index) => {
      const origin = from[index] ?? index;
      const own = places.reduce((sum, place) => sum + beyondStaff(place, clef), 0);
      return (costs[origin] ?? 0) + (origin === index ? 0 : changeCost) + own;
    });
    return from;
  });
  let at = costs.indexOf(Math.min(...costs));
  return origins
    .toReversed()
    .map((from) => {
      const current = at;
      at = from[at] ?? at;
      return current;
    })
    .toReversed();
}

/** What clefs are chosen for. */
export interface ClefRequest {
  /** The notes of the whole line, bar by bar of the whole score. */
  readonly bars: readonly (readonly SoundingNote[])[];
  readonly isPercussion: boolean;
  /** The clefs to choose among; the usual three where null. */
  readonly choices: readonly WrittenClef[] | null;
  /** Octaves by which the line is moved. */
  readonly octaves: number;
}

/** The clefs with the least beyond the staff over the whole line, each change paid for; the percussion clef for a line of hits alone. `barIndex` counts the bars of the score. */
export function clefsFor({ bars, isPercussion, choices, octaves }: ClefRequest): StaffClefs {
  const places = bars.map((notes) => placesOf(notes, octaves));
  const candidates = choices ?? usualClefs;
  const usual = candidates[0] ?? clefs.treble;
  if (places.every((bar) => bar.length === 0)) {
    const hasHits = bars.some((notes) => notes.length > 0);
    return { clef: hasHits || isPercussion ? { sign: 'percussion' } : usual, changes: [] };
  }
  const filled = places.flatMap((bar, barIndex) => (bar.length === 0 ? [] : [barIndex]));
  const path = cheapestPath(
    filled.map((barIndex) => places[barIndex] ?? []),
    candidates,
  );
  const clefAt = (step: number): WrittenClef => candidates[path[step] ?? 0] ?? usual;
  const changes = filled.flatMap((barIndex, step) =>
    step > 0 && path[step] !== path[step - 1] ? [{ barIndex, clef: clefAt(step) }] : [],
  );
  return { clef: clefAt(0), changes };
}

/** The clefs of some bars of the score, from `firstBar` on: the one in force there, and the changes after it. */
export function clefsFrom({ clef, changes }: StaffClefs, firstBar: number, barCount: number): StaffClefs {
  const inForce = changes.findLast(({ barIndex }) => barIndex <= firstBar)?.clef ?? clef;
  const later = changes.filter(({ barIndex }) => barIndex > firstBar && barIndex < firstBar + barCount);
  return { clef: inForce, changes: later.map((change) => ({ ...change, barIndex: change.barIndex - firstBar })) };
}
