import type { LineId } from '../basis/ids.ts';
import type { Split } from '../operations/split.ts';
import type { TickRange } from '../score/excerpt.ts';
import type { Score, SoundingNote } from '../score/score.ts';
import { indexAtOrAfter } from './sorted-search.ts';

/** One note of a line. */
export interface LineNote {
  readonly note: SoundingNote;
  /** Every line that the note is on, this one included. */
  readonly lines: readonly LineId[];
}

const onsetOf = (note: SoundingNote): number => note.onsetTicks;

/** The sounding notes of a line in time order, notes struck together in written order; with a range, those that are struck within it. */
export function lineNotes(
  score: Pick<Score, 'notes'>,
  split: Pick<Split, 'marks'>,
  line: LineId,
  range?: TickRange,
): readonly LineNote[] {
  const start = range === undefined ? 0 : indexAtOrAfter(score.notes, onsetOf, range.startTicks);
  const end = range === undefined ? score.notes.length : indexAtOrAfter(score.notes, onsetOf, range.endTicks);
  return score.notes.slice(start, end).flatMap((note): readonly LineNote[] => {
    const lines = split.marks.get(note.id)?.lines;
    return lines?.includes(line) === true ? [{ note, lines }] : [];
  });
}
