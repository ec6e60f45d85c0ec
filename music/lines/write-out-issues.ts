import type { NoteId } from '../basis/ids.ts';
import type { Issue, IssuePlace } from '../basis/issue.ts';
import type { Score, SoundingNote } from '../score/score.ts';
import type { RangeFinding } from './ranges.ts';

/** The place of a moment of the written score: bar, and beat in units of the meter. */
export function placeOfTicks(score: Pick<Score, 'bars' | 'parts' | 'ticksPerQuarter'>, ticks: number): IssuePlace {
  const bar = score.bars.findLast(({ onsetTicks }) => onsetTicks <= ticks);
  if (bar === undefined) return { kind: 'file' };
  const beat = 1 + ((ticks - bar.onsetTicks) * bar.meter.beatUnit) / (4 * score.ticksPerQuarter);
  return { kind: 'music', part: score.parts[0]?.id ?? '', barOrdinal: bar.ordinal, barLabel: bar.label, beat };
}

/** One issue for each place where no note value says a length exactly. */
export const inexactIssues = (score: Score, ticks: readonly number[], lineName: string): readonly Issue[] =>
  ticks.map((onsetTicks) => ({
    code: 'value-repaired',
    where: placeOfTicks(score, onsetTicks),
    severity: 'warning',
    detail: `No note value says this length of ${lineName} exactly; the nearest one is printed, the length itself is kept.`,
  }));

const placeOfNote = (score: Score, notes: readonly SoundingNote[], id: NoteId | undefined): IssuePlace =>
  placeOfTicks(score, notes.find((note) => note.id === id)?.onsetTicks ?? notes[0]?.onsetTicks ?? 0);

/** One issue for each slur that begins on the line and ends elsewhere. */
export const brokenSlurIssues = (
  score: Score,
  notes: readonly SoundingNote[],
  brokenAt: readonly NoteId[],
  lineName: string,
): readonly Issue[] =>
  brokenAt.map((id) => ({
    code: 'element-left-out',
    where: placeOfNote(score, notes, id),
    severity: 'note',
    detail: `A slur from ${lineName} does not end within what is written of that line; it was left out.`,
  }));

const octavesText = (octaves: number): string =>
  `${Math.abs(octaves) === 1 ? 'an octave' : `${Math.abs(octaves)} octaves`} ${octaves < 0 ? 'lower' : 'higher'}`;

/** One issue for a line that its player cannot sound in full. */
export function rangeIssues(
  score: Score,
  notes: readonly SoundingNote[],
  { player, notes: beyond, suggestedOctaves }: RangeFinding,
  lineName: string,
): readonly Issue[] {
  const isOne = beyond.length === 1;
  const count = isOne ? 'One note' : `${beyond.length} notes`;
  const advice = suggestedOctaves === null ? '' : ` Written ${octavesText(suggestedOctaves)}, more of it fits.`;
  return [
    {
      code: 'note-unplayable',
      where: placeOfNote(score, notes, beyond[0]),
      severity: 'warning',
      detail: `${count} of ${lineName} ${isOne ? 'is' : 'are'} out of reach for ${player}.${advice}`,
    },
  ];
}

const countedNotes = ({ length }: readonly SoundingNote[]): string => (length === 1 ? 'One note' : `${length} notes`);

/** What the tablature of a line does not have from the source: places that are proposed, and notes without one. */
export function stringIssues(
  score: Score,
  notes: readonly SoundingNote[],
  proposed: ReadonlySet<NoteId>,
  lineName: string,
): readonly Issue[] {
  const open = notes.filter(({ fingerboard, sound }) => fingerboard === null && sound.kind === 'pitched');
  const filled = open.filter(({ id }) => proposed.has(id));
  const without = open.filter(({ id }) => !proposed.has(id));
  const note = (code: Issue['code'], [first]: readonly SoundingNote[], detail: string): readonly Issue[] =>
    first === undefined ? [] : [{ code, where: placeOfNote(score, notes, first.id), severity: 'note', detail }];
  return [
    ...note(
      'fingering-proposed',
      filled,
      `${countedNotes(filled)} of ${lineName} have no string and fret in the file; those in brackets are proposed.`,
    ),
    ...note(
      'element-left-out',
      without,
      `${countedNotes(without)} of ${lineName} have no string and fret; the tablature leaves a gap there.`,
    ),
  ];
}
