import { linesOfNote, type Line, type LineId, type Split } from '../../../music/index.ts';
import { barListWords, barsOfNotesWords } from './bar-words.ts';
import { doubtWords, placeOfNoteWords } from './doubt-words.ts';
import { findingWords } from './findings.ts';
import type { SameThere } from './same-there.ts';
import type { Suggestion } from './suggestion.ts';
import type { TableState } from './table-state.ts';

const notesWords = (count: number): string => `${count} ${count === 1 ? 'note' : 'notes'}`;

/** How the split stands: what is on no line, what is unsure. */
export function openWords({ counts }: Pick<TableState, 'counts'>): string {
  const [loose, unsure] = [counts.loose.length, counts.unsure.length];
  if (loose + unsure === 0) return 'Every note has its line';
  const looseWords = `${notesWords(loose)} on no line`;
  if (unsure === 0) return looseWords;
  return loose === 0 ? `${notesWords(unsure)} unsure` : `${looseWords}, ${unsure} unsure`;
}

function newLineWords({ operation }: Suggestion): string {
  const made = operation.kind === 'acceptProposal' ? operation.lines : [];
  if (made.length === 0) return '';
  return `, with ${made.length === 1 ? 'a new line' : 'new lines'}: ${made.map((line) => line.name).join(', ')}`;
}

/** What would change, how much and where. */
export function suggestionWords({ score }: Pick<TableState, 'score'>, suggestion: Suggestion): string {
  const { follows, from } = suggestion;
  if (follows.size === 0) return 'Nothing would change';
  const where = barsOfNotesWords(score, follows);
  if (from === 'same') return `The same there: ${notesWords(follows.size)} in ${where}`;
  const other = from === 'offered' ? 'other ' : '';
  const words = `${follows.size} ${other}${follows.size === 1 ? 'note' : 'notes'}`;
  return `${words} would follow: ${where}${newLineWords(suggestion)}`;
}

const mostNamed = 4;

/** The bars of a deed that can be done again: `bars 9, 17 and 25`; more than four are only counted. */
export function sameBarsWords({ score }: Pick<TableState, 'score'>, same: SameThere): string {
  if (same.bars.length > mostNamed) return `the ${same.bars.length} bars like this one`;
  const found = new Set(same.bars.map(({ bar }) => bar));
  const bars = score.bars.filter((bar) => found.has(bar.id));
  return `${bars.length === 1 ? 'bar' : 'bars'} ${barListWords(bars)}`.replace(/, ([^,]*)$/, ' and $1');
}

/** How like those bars are, and what of theirs is left as people marked it. */
export function sameDetailWords({ score }: Pick<TableState, 'score'>, { bars, leftCount }: SameThere): string {
  const listed = (likeness: SameThere['bars'][number]['likeness']): string => {
    const found = new Set(bars.filter((like) => like.likeness === likeness).map(({ bar }) => bar));
    return barListWords(score.bars.filter((bar) => found.has(bar.id)));
  };
  const alike = [
    [listed('exact'), 'exactly alike'],
    [listed('transposed'), 'alike at another pitch'],
    [listed('varied'), 'nearly alike'],
  ].flatMap(([which, how]) => (which === '' ? [] : [`${which ?? ''} ${how ?? ''}`]));
  const left = leftCount === 0 ? '' : ` Leaves ${notesWords(leftCount)} that people marked.`;
  return `${alike.join('; ')}.${left}`;
}

const namesOf = ({ lines }: Pick<Split, 'lines'>, ids: readonly LineId[]): string =>
  ids.length === 0
    ? 'no line'
    : ids.map((id) => lines.find((line: Line) => line.id === id)?.name.toLowerCase() ?? 'a new line').join(' and ');

/** What would become of the note under the cursor; null where it would not follow. */
function moveWords({ room, cursor, suggestion }: TableState): string | null {
  if (cursor === null || suggestion === null || suggestion.isFolded || !suggestion.follows.has(cursor)) return null;
  const { operation } = suggestion;
  const changes = 'changes' in operation ? operation.changes : [];
  const after = changes.find(({ note }) => note === cursor)?.after.lines ?? [];
  const made = operation.kind === 'acceptProposal' ? operation.lines : [];
  const lines = { lines: [...room.split.lines, ...made] };
  return `would go from ${namesOf(lines, linesOfNote(room.split, cursor))} to ${namesOf(lines, after)}.`;
}

/** The note that the slip is about: one that would follow, or one that wants looking at; null where the cursor is on no such note. */
export function noteInQuestion(state: TableState): { readonly place: string; readonly why: string } | null {
  const { cursor, score, room } = state;
  if (cursor === null) return null;
  const why = moveWords(state) ?? doubtWords(score, room.split, cursor);
  return why === null ? null : { place: placeOfNoteWords(score, room.split, cursor), why };
}

/** What has just come about, for those who listen. */
export function heardWords(state: TableState): string {
  const { suggestion, finding, score, room } = state;
  const question = noteInQuestion(state);
  if (question !== null) return state.view === 'ribbons' ? `${question.place}. ${question.why}` : question.why;
  if (finding !== null) return findingWords(score, room.split, finding);
  if (suggestion !== null && !suggestion.isFolded) return suggestionWords(state, suggestion);
  return markedWords(state);
}

/** What people have said of the note under the cursor, so that a mark is heard when it is made. */
function markedWords({ cursor, room }: TableState): string {
  const mark = cursor === null ? undefined : room.split.marks.get(cursor);
  return mark?.from === 'person' ? `Marked: ${namesOf(room.split, mark.lines)}.` : '';
}
