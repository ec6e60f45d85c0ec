import type { Playing } from '../../../contract/index.ts';
import type { BarId, LineId } from '../../../music/index.ts';

/** What is set for one line or one section. **Units** decibels; percent of what is written. */
export interface Weight {
  readonly levelDb: number;
  readonly dynamicsPercent: number;
}

const plainWeight: Weight = { levelDb: 0, dynamicsPercent: 100 };
const isPlain = ({ levelDb, dynamicsPercent }: Weight): boolean => levelDb === 0 && dynamicsPercent === 100;

/** What is set for a line. */
export const weightOfLine = ({ expression }: Playing, line: LineId): Weight =>
  expression.lines.find((each) => each.line === line) ?? plainWeight;

/** What is set from a bar on; that of the section before where nothing begins there. */
export function weightAt({ expression }: Playing, startBar: BarId): Weight {
  return expression.sections.find((each) => each.startBar === startBar) ?? plainWeight;
}

/** The playing with one line set otherwise; a line that is plain is not told of. */
export function withLineWeight(playing: Playing, line: LineId, change: Partial<Weight>): Playing {
  const { levelDb, dynamicsPercent } = { ...weightOfLine(playing, line), ...change };
  const others = playing.expression.lines.filter((each) => each.line !== line);
  const lines = isPlain({ levelDb, dynamicsPercent }) ? others : [...others, { line, levelDb, dynamicsPercent }];
  return { ...playing, expression: { ...playing.expression, lines } };
}

/**
 * The playing with one of these sections set otherwise. All of them are told of, so that each ends where the next
 * begins; where all are plain and as the song has them, none is.
 */
export function withSectionWeight(
  playing: Playing,
  starts: readonly BarId[],
  startBar: BarId,
  change: Partial<Weight>,
): Playing {
  const sections = starts.map((start) => {
    const weight = weightAt(playing, start);
    const { levelDb, dynamicsPercent } = start === startBar ? { ...weight, ...change } : weight;
    return { startBar: start, levelDb, dynamicsPercent };
  });
  return { ...playing, expression: { ...playing.expression, sections: sections.every(isPlain) ? [] : sections } };
}

/** Percent of what is written, in words. */
export function shareWords(percent: number): string {
  if (percent === 0) return 'not at all';
  return percent === 100 ? 'as written' : `${percent} % of what is written`;
}

/** How uneven the hand is, 0 to 1, in words. */
export function handWords(amount: number): string {
  if (amount === 0) return 'quite even';
  if (amount < 0.35) return 'steady';
  return amount < 0.75 ? 'relaxed' : 'loose';
}
