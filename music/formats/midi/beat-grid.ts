/** How time is read: straight halves and quarters, thirds, swung eighths that are written straight, or whatever fits each beat best. */
export type GridKind = 'auto' | 'straight' | 'triplet' | 'swing';

/** The kind of division that a beat was read with. */
export type BeatFamily = 'straight' | 'triplet' | 'swing' | 'odd';

/** One way to divide a beat. */
export interface BeatGrid {
  /** Into how many equal parts. */
  readonly parts: number;
  readonly family: BeatFamily;
}

/** A moment of a beat, from 0 to 1, and how far the file's resolution reaches. */
export interface BeatMoments {
  /** **Units** the beat. */
  readonly places: readonly number[];
  /** How near counts as exact. **Units** the beat. */
  readonly tolerance: number;
  /** How far from the grid people play. **Units** the beat. */
  readonly looseness: number;
  readonly isCompound: boolean;
  /** The file is on a grid already, so that an exact fit is worth having. */
  readonly isClean: boolean;
}

interface Candidate extends BeatGrid {
  readonly price: number;
  /** Taken only where every moment lies on it exactly. */
  readonly isForExact: boolean;
}

const candidate = (parts: number, family: BeatFamily, price: number, isForExact = false): Candidate => ({
  parts,
  family,
  price,
  isForExact,
});

/** From the plainest to the rarest; the prices were chosen so that a lone off-beat is an eighth and thirds need two witnesses or a clear place. **Source** none: chosen by us. */
const simpleCandidates: readonly Candidate[] = [
  candidate(1, 'straight', 0),
  candidate(2, 'straight', 1),
  candidate(4, 'straight', 2),
  candidate(3, 'triplet', 3),
  candidate(6, 'triplet', 6),
  candidate(8, 'straight', 7),
  candidate(12, 'triplet', 12, true),
  candidate(16, 'straight', 14, true),
  candidate(5, 'odd', 16, true),
  candidate(7, 'odd', 18, true),
];

const compoundCandidates: readonly Candidate[] = [
  candidate(1, 'straight', 0),
  candidate(3, 'straight', 1),
  candidate(6, 'straight', 2),
  candidate(12, 'straight', 7),
  candidate(2, 'odd', 8, true),
  candidate(4, 'odd', 9, true),
  candidate(24, 'straight', 14, true),
];

/** Two thirds of the beat: where a swung off-beat falls. */
const swungOffBeat = 2 / 3;

/** Swung time as it is written: the first two thirds of a beat are its first half. */
export const unswung = (place: number): number =>
  place <= swungOffBeat ? place / (2 * swungOffBeat) : 0.5 + (place - swungOffBeat) / (2 * (1 - swungOffBeat));

const distanceTo = (place: number, parts: number): number => Math.abs(place - Math.round(place * parts) / parts);

/** Whether a moment lies on some grid that a person may have written. */
export const isOnSomeGrid = (place: number, tolerance: number, isCompound: boolean): boolean =>
  (isCompound ? compoundCandidates : simpleCandidates).some(({ parts }) => distanceTo(place, parts) <= tolerance);

function allowed(kind: GridKind, isCompound: boolean): readonly Candidate[] {
  if (isCompound) return compoundCandidates;
  if (kind === 'auto') return simpleCandidates;
  const family = kind === 'triplet' ? 'triplet' : 'straight';
  return simpleCandidates.filter((one) => one.family === family || one.parts === 1);
}

function bestOf(candidates: readonly Candidate[], moments: BeatMoments): Candidate {
  const exact = candidates.find(({ parts }) =>
    moments.places.every((place) => distanceTo(place, parts) <= moments.tolerance),
  );
  if (exact !== undefined && (moments.isClean || exact.price <= 2)) return exact;
  const cost = ({ parts, price }: Candidate): number =>
    moments.places.reduce((sum, place) => sum + (distanceTo(place, parts) / moments.looseness) ** 2, price);
  const free = candidates.filter(({ isForExact }) => !isForExact);
  return free.reduce((best, next) => (cost(next) < cost(best) ? next : best), free[0] ?? candidate(1, 'straight', 0));
}

const middleOf = (place: number): boolean => place > 0.22 && place < 0.45;

/** The division of one beat that its onsets ask for. Swung beats are read as straight ones after swing is taken out, unless their middle third is struck. */
export function gridOfBeat(moments: BeatMoments, kind: GridKind): BeatGrid {
  if (kind !== 'swing' || moments.isCompound) return bestOf(allowed(kind, moments.isCompound), moments);
  if (moments.places.some(middleOf)) return bestOf(allowed('triplet', false), moments);
  const straightened = { ...moments, places: moments.places.map(unswung) };
  return { parts: bestOf(allowed('straight', false), straightened).parts, family: 'swing' };
}

/** The place on a grid that is nearest to a moment, as it is written. **Units** the beat. */
export function nearestOnGrid(place: number, { parts, family }: BeatGrid): number {
  const written = family === 'swing' ? unswung(place) : place;
  return Math.round(written * parts) / parts;
}

/** Whether a beat is one long and one short note as swing has them: struck once, around two thirds. */
export function isSwungPair(places: readonly number[], looseness: number): boolean {
  const inner = places.filter((place) => place > looseness && place < 1 - looseness);
  return inner.length === 1 && inner.every((place) => place >= 0.59 && place <= 0.72);
}

/** Whether a beat is divided at all. */
export const isDivided = (places: readonly number[], looseness: number): boolean =>
  places.some((place) => place > looseness && place < 1 - looseness);
