import type { LineId } from '../basis/ids.ts';
import { activeLines, type Line, type Split } from '../operations/split.ts';
import { ticksOfExcerpt, type Excerpt } from '../score/excerpt.ts';
import type { Score } from '../score/score.ts';
import { looseNotes } from './checks.ts';
import { lineNotes } from './line-notes.ts';
import type { RangeFinding } from './ranges.ts';
import { writeOut, type WriteOutOptions, type WrittenOut } from './write-out.ts';

/** A written-out score whose lines lie where their players reach, as far as octaves bring them there. */
export interface WrittenForPlayers extends WrittenOut {
  /** A sentence for each thing that is not as the lines have it: notes on no line, lines moved, notes out of reach, values that had to differ. */
  readonly losses: readonly string[];
}

/** The lines that have notes in an excerpt, in the split's order. */
export function linesWithNotes(score: Score, split: Pick<Split, 'lines' | 'marks'>, excerpt: Excerpt): readonly Line[] {
  const range = ticksOfExcerpt(score, excerpt);
  if (range === null) return [];
  return activeLines(split).filter((line) => lineNotes(score, split, line.id, range).length > 0);
}

/** What is written where no lines are named: those with notes; where none has any, all of them rest. */
function linesToWrite(score: Score, split: Pick<Split, 'lines' | 'marks'>, excerpt: Excerpt): readonly LineId[] {
  const sounding = linesWithNotes(score, split, excerpt);
  return (sounding.length > 0 ? sounding : activeLines(split)).map(({ id }) => id);
}

/** The octaves that bring lines into the range of their players. */
const octavesOf = (ranges: readonly RangeFinding[]): ReadonlyMap<LineId, number> =>
  new Map(
    ranges.flatMap(({ line, suggestedOctaves }) =>
      suggestedOctaves === null ? [] : [[line, suggestedOctaves] as const],
    ),
  );

function looseSentence(score: Score, split: Pick<Split, 'lines' | 'marks'>, excerpt: Excerpt): readonly string[] {
  const range = ticksOfExcerpt(score, excerpt);
  const loose = looseNotes(score, split).filter(
    ({ onsetTicks }) => range !== null && onsetTicks >= range.startTicks && onsetTicks < range.endTicks,
  );
  if (loose.length === 0) return [];
  return [
    loose.length === 1
      ? 'One note is on no line and was left out.'
      : `${loose.length} notes are on no line and were left out.`,
  ];
}

const nameOfLine = ({ lines }: Pick<Split, 'lines'>, id: LineId): string =>
  lines.find((line) => line.id === id)?.name ?? id;

const movedSentences = (split: Pick<Split, 'lines'>, ranges: readonly RangeFinding[]): readonly string[] =>
  ranges.flatMap(({ line, player, suggestedOctaves: count }) => {
    if (count === null) return [];
    const far = Math.abs(count) === 1 ? 'an octave' : `${Math.abs(count)} octaves`;
    return [`${nameOfLine(split, line)} was moved ${far} ${count > 0 ? 'up' : 'down'}, for the range of ${player}.`];
  });

/** Lines written out as writeOut does it, each moved by the octaves that bring it into its player's range; where no lines are named, those that have notes in the excerpt, or all where none has. */
export function writeForPlayers(
  score: Score,
  split: Pick<Split, 'lines' | 'marks'>,
  excerpt: Excerpt,
  options: Omit<WriteOutOptions, 'octaves'>,
): WrittenForPlayers {
  const named = { ...options, lines: options.lines ?? linesToWrite(score, split, excerpt) };
  const first = writeOut(score, split, excerpt, named);
  const octaves = octavesOf(first.ranges);
  const written = octaves.size === 0 ? first : writeOut(score, split, excerpt, { ...named, octaves });
  const losses = [
    ...(options.lines === undefined ? looseSentence(score, split, excerpt) : []),
    ...movedSentences(split, first.ranges),
    ...new Set(written.issues.map(({ detail }) => detail)),
  ];
  return { ...written, losses };
}
