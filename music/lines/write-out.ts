import type { LineId } from '../basis/ids.ts';
import type { Issue, WithIssues } from '../basis/issue.ts';
import { activeLines, type Line, type Split } from '../operations/split.ts';
import { ticksOfExcerpt, type Excerpt, type TickRange } from '../score/excerpt.ts';
import type { Score } from '../score/score.ts';
import type { WrittenScore } from '../score/written.ts';
import { playerAt, type Ensemble } from './ensembles.ts';
import { byFrame, sharedDirections } from './frame-directions.ts';
import { noteExtras } from './head-details.ts';
import { reachOf, type LengthMode } from './lengths.ts';
import type { RangeFinding } from './ranges.ts';
import type { ProposedPlaces } from './staff-tablature.ts';
import { barFrames } from './written-bars.ts';
import { linesNamed, staffOf, type StaffRequest, type StaffSetting } from './written-staff.ts';

/** What is to be written out, and how. */
export interface WriteOutOptions {
  /** The lines, a staff each in this order; all that are not retired, in the split's order, where none are named. */
  readonly lines?: readonly LineId[];
  readonly lengths: LengthMode;
  /** Who plays: clefs, ranges and transpositions come from there. Lines of hits take no player. */
  readonly ensemble?: Ensemble;
  /** Octaves by which lines are moved, as the findings about ranges suggest. */
  readonly octaves?: ReadonlyMap<LineId, number>;
  /** Whether each line shows its strings and frets under its notes: those of the source, in brackets those of `places`. */
  readonly tablature?: boolean;
  /** Proposed places for notes that have none of their own. */
  readonly places?: ProposedPlaces;
}

/** A written-out score with what was found while it was written. */
export interface WrittenOut extends WithIssues<WrittenScore> {
  readonly ranges: readonly RangeFinding[];
}

function settingOf(
  score: Score,
  split: Pick<Split, 'marks'>,
  range: TickRange,
  { lengths, tablature, places }: WriteOutOptions,
): StaffSetting {
  const { ticksPerQuarter } = score;
  const nested = score.tuplets.filter(({ depth }) => depth > 1);
  return {
    score,
    split,
    ticksPerQuarter,
    range,
    frames: barFrames(score, range),
    reach: reachOf(score, lengths),
    extras: noteExtras(score),
    isNestedAt: (startTicks, endTicks) =>
      nested.some((tuplet) => tuplet.onsetTicks >= startTicks && tuplet.endTicks <= endTicks),
    withTablature: tablature ?? false,
    places: tablature === true ? (places ?? new Map()) : new Map(),
  };
}

function requestsOf(lines: readonly Line[], { ensemble, octaves }: WriteOutOptions): readonly StaffRequest[] {
  let pitchedCount = 0;
  return lines.map((line) => {
    const isPlayed = ensemble !== undefined && line.role !== 'percussion';
    const player = isPlayed ? playerAt(ensemble, pitchedCount) : null;
    if (isPlayed) pitchedCount += 1;
    return { line, player, octaves: octaves?.get(line.id) ?? 0 };
  });
}

/** The lines of an excerpt as an ensemble score at sounding pitch: a staff each, gaps filled with rests, every bar summing to its own length, every head naming its source note. Notes that began before the excerpt are not struck again. **Errors** as issues: `no-music`, `element-left-out`, `fingering-proposed`, `note-unplayable`, `value-repaired`. */
export function writeOut(
  score: Score,
  split: Pick<Split, 'lines' | 'marks'>,
  excerpt: Excerpt,
  options: WriteOutOptions,
): WrittenOut {
  const { title, composer, ticksPerQuarter } = score;
  const range = ticksOfExcerpt(score, excerpt);
  if (range === null) {
    const detail =
      'The excerpt names a bar that the score does not have, or ends before it begins; nothing was written.';
    const issue: Issue = { code: 'no-music', where: { kind: 'file' }, severity: 'error', detail };
    return { value: { title, composer, ticksPerQuarter, bars: [], staves: [] }, issues: [issue], ranges: [] };
  }
  const setting = settingOf(score, split, range, options);
  const chosen = options.lines === undefined ? activeLines(split) : linesNamed(split.lines, options.lines);
  const staves = requestsOf(chosen, options).map((request) => staffOf(setting, request));
  const directions = byFrame(sharedDirections(score, range), setting.frames);
  const bars = setting.frames.map(({ written }, index) => ({ ...written, directions: directions[index] ?? [] }));
  const bracket = staves.length > 1 && options.ensemble !== undefined ? { bracket: options.ensemble.bracket } : {};
  return {
    value: { title, composer, ticksPerQuarter, bars, staves: staves.map(({ staff }) => staff), ...bracket },
    issues: staves.flatMap(({ issues }) => issues),
    ranges: staves.flatMap(({ range: found }) => found ?? []),
  };
}
