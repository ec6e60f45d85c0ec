import type { NoteId } from '../basis/ids.ts';
import type { HitKind, SoundingNote } from '../score/score.ts';

/** The notes of one bar, and where the bar begins. */
export interface BarOfNotes {
  readonly onsetTicks: number;
  readonly notes: readonly SoundingNote[];
}

/** Which notes of two bars correspond, and how well. */
export interface BarAlignment {
  /** How far the second bar lies above the first: the distance that most corresponding notes have. **Units** semitones. */
  readonly semitones: number;
  readonly pairs: readonly (readonly [NoteId, NoteId])[];
  /** How many pairs are the same but for `semitones`, and how many at most a whole tone off it. */
  readonly alike: { readonly same: number; readonly near: number };
  /** Whether the notes of every pair last equally long. */
  readonly isSameRhythm: boolean;
}

type Pair = readonly [SoundingNote, SoundingNote];

/** A whole tone: what a change of key, mode or harmony does to a note of the same figure. */
const nearSemitones = 2;

const hitOrder: readonly HitKind[] = ['highBody', 'stringSlap', 'deadNote', 'lowBody'];

const midiOf = ({ sound }: SoundingNote): number | null => (sound.kind === 'pitched' ? sound.soundingMidi : null);
const hitOf = ({ sound }: SoundingNote): number => (sound.kind === 'hit' ? hitOrder.indexOf(sound.hit) : -1);

/** From high to low, hits last. */
const byHeight = (a: SoundingNote, b: SoundingNote): number =>
  (midiOf(b) ?? -1) - (midiOf(a) ?? -1) || hitOf(a) - hitOf(b) || a.lengthTicks - b.lengthTicks;

function momentsOf({ onsetTicks, notes }: BarOfNotes): ReadonlyMap<number, readonly SoundingNote[]> {
  const moments = new Map<number, SoundingNote[]>();
  for (const note of notes) {
    const offset = note.onsetTicks - onsetTicks;
    const known = moments.get(offset);
    if (known === undefined) moments.set(offset, [note]);
    else known.push(note);
  }
  for (const moment of moments.values()) moment.sort(byHeight);
  return moments;
}

const semitonesOf = ([from, to]: Pair): number | null => {
  const [low, high] = [midiOf(from), midiOf(to)];
  return low === null || high === null ? null : high - low;
};

/** The distance that most pairs have; of equally frequent ones the smallest, downwards first. */
function commonSemitones(pairs: readonly Pair[]): number {
  const counts = new Map<number, number>();
  for (const pair of pairs) {
    const semitones = semitonesOf(pair);
    if (semitones !== null) counts.set(semitones, (counts.get(semitones) ?? 0) + 1);
  }
  let best = 0;
  for (const [semitones, count] of [...counts].sort(([a], [b]) => Math.abs(a) - Math.abs(b) || a - b))
    if (count > (counts.get(best) ?? 0)) best = semitones;
  return best;
}

/** How far a pair is from being the same at a distance; a hit and a pitch, or two kinds of hit, are no pair. **Units** semitones. */
function strayOf(pair: Pair, semitones: number): number {
  const distance = semitonesOf(pair);
  if (distance !== null) return Math.abs(distance - semitones);
  return hitOf(pair[0]) === hitOf(pair[1]) ? 0 : Infinity;
}

/** What begins together, paired in order of height: as they stand where both have as many, else the pairs that are near. */
function pairMoment(from: readonly SoundingNote[], to: readonly SoundingNote[], semitones: number): readonly Pair[] {
  if (from.length === to.length)
    return from
      .map((note, index): Pair => [note, to[index] as SoundingNote])
      .filter((pair) => strayOf(pair, 0) < Infinity);
  const pairs: Pair[] = [];
  let next = 0;
  for (const note of from) {
    const at = to.findIndex((other, index) => index >= next && strayOf([note, other], semitones) <= nearSemitones);
    if (at === -1) continue;
    pairs.push([note, to[at] as SoundingNote]);
    next = at + 1;
  }
  return pairs;
}

/** The notes of two bars that begin at the same place and hold the same place in what begins with them. */
export function alignBars(from: BarOfNotes, to: BarOfNotes): BarAlignment {
  const [left, right] = [momentsOf(from), momentsOf(to)];
  const common = [...left.keys()].filter((offset) => right.has(offset));
  const paired = (offset: number, semitones: number): readonly Pair[] =>
    pairMoment(left.get(offset) ?? [], right.get(offset) ?? [], semitones);
  const clear = common.filter((offset) => left.get(offset)?.length === right.get(offset)?.length);
  const semitones = commonSemitones(clear.flatMap((offset) => paired(offset, 0)));
  const pairs = common.flatMap((offset) => paired(offset, semitones));
  const strays = pairs.map((pair) => strayOf(pair, semitones));
  return {
    semitones,
    pairs: pairs.map(([a, b]) => [a.id, b.id]),
    alike: {
      same: strays.filter((stray) => stray === 0).length,
      near: strays.filter((stray) => stray <= nearSemitones).length,
    },
    isSameRhythm: pairs.every(([a, b]) => a.lengthTicks === b.lengthTicks),
  };
}
