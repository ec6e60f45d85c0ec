import type { Issue, IssuePlace } from '../basis/issue.ts';
import type { Score, SoundingNote } from '../score/score.ts';

/** The place of a moment of the written score: bar, and beat in units of the meter. */
export function placeOfTicks(score: Pick<Score, 'bars' | 'parts' | 'ticksPerQuarter'>, ticks: number): IssuePlace {
  const bar = score.bars.findLast(({ onsetTicks }) => onsetTicks <= ticks);
  if (bar === undefined) return { kind: 'file' };
  const beat = 1 + ((ticks - bar.onsetTicks) * bar.meter.beatUnit) / (4 * score.ticksPerQuarter);
  return { kind: 'music', part: score.parts[0]?.id ?? '', barOrdinal: bar.ordinal, barLabel: bar.label, beat };
}

/** One issue for each grace note of these notes: grace notes are not written out. */
export function graceIssues(score: Score, notes: readonly SoundingNote[], lineName: string): readonly Issue[] {
  if (score.graces.length === 0) return [];
  const onsets = new Map(notes.map((note) => [note.id, note.onsetTicks]));
  return score.graces.flatMap((grace): readonly Issue[] => {
    const onsetTicks = onsets.get(grace.main);
    if (onsetTicks === undefined) return [];
    const detail = `A grace note of ${lineName} was left out of the written-out score.`;
    return [{ code: 'element-left-out', where: placeOfTicks(score, onsetTicks), severity: 'note', detail }];
  });
}

/** One issue for each place where no note value says a length exactly. */
export const inexactIssues = (score: Score, ticks: readonly number[], lineName: string): readonly Issue[] =>
  ticks.map((onsetTicks) => ({
    code: 'value-repaired',
    where: placeOfTicks(score, onsetTicks),
    severity: 'warning',
    detail: `No note value says this length of ${lineName} exactly; the nearest one is printed, the length itself is kept.`,
  }));
