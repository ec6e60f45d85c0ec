import {
  doubtsOf,
  isUnsure,
  linesOfNote,
  type LineId,
  type NoteId,
  type Score,
  type Split,
} from '../../../music/index.ts';
import { noteWords } from '../../engraving/place-words.ts';
import { barPlaceWords } from './bar-words.ts';

/** A note in words, as the slip names it: `Bar 12, beat 3, E4, middle voice`. */
export function placeOfNoteWords(score: Score, split: Split, id: NoteId): string {
  const note = score.notes.find((candidate) => candidate.id === id);
  if (note === undefined) return '';
  const on = linesOfNote(split, id);
  const words = noteWords(
    score,
    note,
    split.lines.filter((line) => on.includes(line.id)),
  );
  return words.slice(0, 1).toUpperCase() + words.slice(1);
}

const nameOf = (split: Split, id: LineId): string =>
  split.lines.find((line) => line.id === id)?.name.toLowerCase() ?? 'another line';

/** How often a proposal of this confidence is right, in whole tenths: never always, never never. */
const tenths = (confidence: number): number => Math.min(9, Math.max(1, Math.round(confidence * 10)));

/** A leap that makes one wonder. **Units** semitones. */
const wideLeap = 8;
/** A rest that makes one wonder. **Units** bars. */
const longRest = 2;

function reasonWords(score: Score, split: Split, id: NoteId): string {
  const doubts = doubtsOf(score, split, id);
  const note = score.notes.find((candidate) => candidate.id === id);
  const own = linesOfNote(split, id)[0];
  if (doubts === null || note === undefined || own === undefined) return '';
  if (note.sound.kind === 'hit') return 'It may be a hit of its own or part of the strum.';
  if (doubts.rival !== null) return `The ${nameOf(split, doubts.rival)} is as near.`;
  const barOf = (bar: typeof note.bar | null) => score.bars.find((candidate) => candidate.id === bar);
  const [here, last] = [barOf(note.bar), barOf(doubts.lineLastHeardIn)];
  if (last === undefined) return `The ${nameOf(split, own)} would begin here.`;
  if (here !== undefined && here.ordinal - last.ordinal >= longRest)
    return `The ${nameOf(split, own)} was last heard in ${barPlaceWords(last)}.`;
  if (doubts.together > 0) return `It is one of ${doubts.together + 1} notes at once in the ${nameOf(split, own)}.`;
  if (doubts.leapSemitones !== null && doubts.leapSemitones >= wideLeap)
    return `It leaps ${doubts.leapSemitones} semitones from the last note of the ${nameOf(split, own)}.`;
  return '';
}

/** Why a note wants looking at, in a sentence or two; null where it is on a line and nobody doubts it. */
export function doubtWords(score: Score, split: Split, id: NoteId): string | null {
  const mark = split.marks.get(id);
  const active = new Set(split.lines.filter((line) => !line.isRetired).map((line) => line.id));
  if (!linesOfNote(split, id).some((line) => active.has(line))) return 'On no line yet.';
  if (mark === undefined || !isUnsure(mark)) return null;
  return `Unsure: right about ${tenths(mark.confidence ?? 0)} times in 10. ${reasonWords(score, split, id)}`.trimEnd();
}
