import type { Bar, Score, SoundingNote, SourceVoice } from '../score/score.ts';
import { indexAtOrAfter } from './sorted-search.ts';

/** How long notes are written: as the source has them, until the line's next note, or until their string is struck again. */
export type LengthMode = 'written' | 'next' | 'string';

/** Tells how far a note reaches before the line's next onset or the excerpt's end cuts it. **Units** ticks of the written score. */
export type Reach = (note: SoundingNote, nextOnsetTicks: number) => number;

function firstFrom(sortedTicks: readonly number[] | undefined, ticks: number): number {
  if (sortedTicks === undefined) return Infinity;
  return sortedTicks[indexAtOrAfter(sortedTicks, (candidate) => candidate, ticks)] ?? Infinity;
}

function grouped<Item>(
  items: readonly Item[],
  keyOf: (item: Item) => string | null,
  ticksOf: (item: Item) => number,
): ReadonlyMap<string, readonly number[]> {
  const groups = new Map<string, number[]>();
  for (const item of items) {
    const key = keyOf(item);
    if (key === null) continue;
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [ticksOf(item)]);
    else group.push(ticksOf(item));
  }
  return groups;
}

const voiceKey = ({ part, staff, voice }: SourceVoice): string => `${part} ${staff} ${voice}`;

function stringKey(note: SoundingNote): string | null {
  const part = note.voices[0]?.part;
  return note.fingerboard === null || part === undefined ? null : `${part} ${note.fingerboard.string}`;
}

/** Two bars after the onset, counted by the length of its own bar and the following one. */
function twoBarsOn(bars: readonly Bar[]): (note: SoundingNote) => number {
  const indexes = new Map(bars.map((bar, index) => [bar.id, index]));
  return (note) => {
    const index = indexes.get(note.bar) ?? 0;
    return note.onsetTicks + (bars[index]?.lengthTicks ?? 0) + (bars[index + 1]?.lengthTicks ?? 0);
  };
}

function untilNext(score: Score): Reach {
  const rests = grouped(
    score.rests,
    ({ voice }) => voiceKey(voice),
    ({ onsetTicks }) => onsetTicks,
  );
  const limit = twoBarsOn(score.bars);
  return (note, nextOnsetTicks) => {
    const restsFrom = note.voices.map((voice) => firstFrom(rests.get(voiceKey(voice)), note.onsetTicks + 1));
    return Math.min(nextOnsetTicks, restsFrom.length === 0 ? Infinity : Math.max(...restsFrom), limit(note));
  };
}

function untilStruckAgain(score: Score): Reach {
  const strikes = grouped(score.notes, stringKey, ({ onsetTicks }) => onsetTicks);
  const limit = twoBarsOn(score.bars);
  return (note) => {
    const key = stringKey(note);
    if (key === null) return note.onsetTicks + note.lengthTicks;
    return Math.min(firstFrom(strikes.get(key), note.onsetTicks + 1), limit(note));
  };
}

/** How far notes reach in this mode; a hit never outlasts its written length. */
export function reachOf(score: Score, mode: LengthMode): Reach {
  const written: Reach = (note) => note.onsetTicks + note.lengthTicks;
  if (mode === 'written') return written;
  const reach = mode === 'next' ? untilNext(score) : untilStruckAgain(score);
  return (note, nextOnsetTicks) => (note.sound.kind === 'hit' ? written : reach)(note, nextOnsetTicks);
}
