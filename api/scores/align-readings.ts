import { midiOf, type Score, type SoundingNote } from '../../music/index.ts';
import { alignScores, pairHeads, type Renaming } from './align-scores.ts';

/** What of a note stays the same however its file is read: its part and its written pitch, or the kind of its hit. */
function keyOf({ voices, sound }: SoundingNote): string {
  return `${voices[0]?.part ?? ''}|${sound.kind === 'pitched' ? midiOf(sound.written) : sound.hit}`;
}

function byKey({ notes }: Score): ReadonlyMap<string, readonly SoundingNote[]> {
  const found = new Map<string, SoundingNote[]>();
  for (const note of notes) {
    const alike = found.get(keyOf(note));
    if (alike === undefined) found.set(keyOf(note), [note]);
    else alike.push(note);
  }
  return found;
}

/** How far another grid moves a note at most. **Units** quarters. */
const farthest = 1;

type Pair = readonly [present: SoundingNote, next: SoundingNote];

/** Alike notes in the order in which they are played: one to one where there are as many, else each to the nearest that is left. */
function pairsOf(
  present: readonly SoundingNote[],
  next: readonly SoundingNote[],
  quartersBetween: (present: SoundingNote, next: SoundingNote) => number,
): readonly Pair[] {
  if (present.length === next.length) return present.map((note, index): Pair => [note, next[index] as SoundingNote]);
  const pairs: Pair[] = [];
  let first = 0;
  for (const note of next) {
    while (first < present.length && quartersBetween(present[first] as SoundingNote, note) < -farthest) first += 1;
    const [here, after] = [present[first], present[first + 1]];
    if (here === undefined) break;
    const distance = Math.abs(quartersBetween(here, note));
    if (distance > farthest) continue;
    const isAfterNearer = after !== undefined && Math.abs(quartersBetween(after, note)) < distance;
    pairs.push([isAfterNearer ? after : here, note]);
    first += isAfterNearer ? 2 : 1;
  }
  return pairs;
}

/** Which bars and notes of one file, read in two ways, are the same: bars by their place, notes by part, written pitch and order, so that another octave, capo or grid loses no name. Where the bars differ the readings are of different music and are aligned as such. */
export function alignReadings(present: Score, next: Score): Renaming {
  if (present.bars.length !== next.bars.length) return alignScores(present, next);
  const quartersBetween = (a: SoundingNote, b: SoundingNote): number =>
    a.onsetTicks / present.ticksPerQuarter - b.onsetTicks / next.ticksPerQuarter;
  const heads = new Map<string, string>();
  const known = byKey(present);
  for (const [key, notes] of byKey(next))
    for (const [before, after] of pairsOf(known.get(key) ?? [], notes, quartersBetween))
      pairHeads(before, after, heads);
  return {
    heads,
    bars: new Map(next.bars.map(({ id }, index) => [id, present.bars[index]?.id ?? id])),
  };
}
