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
  const count = beyond.length === 1 ? 'One note' : `${beyond.length} notes`;
  const advice = suggestedOctaves === null ? '' : ` Written ${octavesText(suggestedOctaves)}, more of it fits.`;
  return [
    {
      code: 'note-unplayable',
      where: placeOfNote(score, notes, beyond[0]),
      severity: 'warning',
      detail: `${count} of ${lineName} cannot be played on ${player}: out of its range.${advice}`,
    },
  ];
}

/** One issue for a line of which some notes have no place on the strings. */
export function stringlessIssues(score: Score, notes: readonly SoundingNote[], lineName: string): readonly Issue[] {
  const without = notes.filter(({ fingerboard, sound }) => fingerboard === null && sound.kind === 'pitched');
  if (without.length === 0) return [];
  const count = without.length === 1 ? 'One note' : `${without.length} notes`;
  return [
    {
      code: 'element-left-out',
      where: placeOfNote(score, notes, without[0]?.id),
      severity: 'note',
      detail: `${count} of ${lineName} have no string and fret; the tablature leaves a gap there.`,
    },
  ];
}
