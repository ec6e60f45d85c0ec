import type { LineId } from '../../../music/index.ts';
import type { Run, Section } from './stroke.ts';

/** A ribbon in one row, by its line; the order of the list is the order of drawing. */
export interface RowRibbon {
  readonly line: LineId;
  readonly runs: readonly Run[];
}

/** A place where one ribbon lies over another. */
export interface Crossing {
  readonly over: LineId;
  readonly under: LineId;
  /** The over ribbon's sections there. */
  readonly overSections: readonly Section[];
  /** The under ribbon is drawn later, so the over one must be drawn once more on top. */
  readonly needsBridge: boolean;
}

interface Meeting {
  readonly firstIndex: number;
  readonly lastIndex: number;
}

const plySections = 8;
const margin = 2;

/**
 * Where ribbons lie over and under each other. For each pair of lines over and under alternate from one meeting to the
 * next, as in plain weave; where two run on together they are laid round each other like plies.
 */
export function crossingsOf(ribbons: readonly RowRibbon[]): readonly Crossing[] {
  return ribbons.flatMap((earlier, index) =>
    ribbons.slice(index + 1).flatMap((later) => crossingsOfPair(earlier, later)),
  );
}

function crossingsOfPair(earlier: RowRibbon, later: RowRibbon): readonly Crossing[] {
  const meetings = earlier.runs
    .flatMap((one) => later.runs.flatMap((other) => meetingsOf(one, other)))
    .sort((a, b) => a.firstIndex - b.firstIndex)
    .flatMap(plies);
  return meetings.flatMap((meeting, place) => {
    const laterIsOver = place % 2 === 0;
    const over = laterIsOver ? later : earlier;
    const overSections = sectionsWithin(over, meeting);
    if (overSections.length < 2) return [];
    return [
      { over: over.line, under: laterIsOver ? earlier.line : later.line, overSections, needsBridge: !laterIsOver },
    ];
  });
}

/** Stretches of the common grid on which two runs touch. */
function meetingsOf(one: Run, other: Run): readonly Meeting[] {
  const meetings: { firstIndex: number; lastIndex: number }[] = [];
  const from = Math.max(one.firstIndex, other.firstIndex);
  const to = Math.min(one.firstIndex + one.sections.length, other.firstIndex + other.sections.length);
  for (let index = from; index < to; index += 1) {
    const here = one.sections[index - one.firstIndex] as Section;
    const there = other.sections[index - other.firstIndex] as Section;
    if (Math.abs(here.y - there.y) >= here.half + there.half) continue;
    const latest = meetings.at(-1);
    if (latest !== undefined && latest.lastIndex === index - 1) latest.lastIndex = index;
    else meetings.push({ firstIndex: index, lastIndex: index });
  }
  return meetings;
}

/** A meeting cut into plies of about equal length where it is long. */
function plies(meeting: Meeting): readonly Meeting[] {
  const count = meeting.lastIndex - meeting.firstIndex + 1;
  const pieces = Math.max(1, Math.round(count / (2 * plySections)));
  if (pieces === 1) return [meeting];
  return Array.from({ length: pieces }, (_, piece) => ({
    firstIndex: meeting.firstIndex + Math.floor((piece * count) / pieces),
    lastIndex: meeting.firstIndex + Math.floor(((piece + 1) * count) / pieces) - 1,
  }));
}

function sectionsWithin(ribbon: RowRibbon, { firstIndex, lastIndex }: Meeting): readonly Section[] {
  const run = ribbon.runs.find(
    (candidate) => candidate.firstIndex <= firstIndex && candidate.firstIndex + candidate.sections.length > lastIndex,
  );
  if (run === undefined) return [];
  const from = Math.max(0, firstIndex - run.firstIndex - margin);
  return run.sections.slice(from, lastIndex - run.firstIndex + 1 + margin);
}
