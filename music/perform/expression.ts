import { z } from 'zod';
import { exactPow } from '../basis/exact-math.ts';
import { barId, lineId, type BarId, type LineId } from '../basis/ids.ts';
import type { Score } from '../score/score.ts';

const idText = z.string().min(1).max(64);
const percent = z.number().min(0).max(200);
const levelDb = z.number().min(-24).max(12);

/** How a teacher wants loudness to come out: within lines, between lines and between sections. */
export const expressionSchema = z.object({
  dynamicsPercent: percent,
  stressPercent: percent,
  lines: z.array(z.object({ line: idText.transform(lineId), levelDb, dynamicsPercent: percent })).max(24),
  sections: z.array(z.object({ startBar: idText.transform(barId), levelDb, dynamicsPercent: percent })).max(200),
});

/**
 * A teacher's adjustments of loudness. **Units** percent of what is written (100 as written, 0 flat, 200 twice as much);
 * levels in dB. Dynamics are marks and hairpins, stress is accents and meter. A section lasts from its bar to the next
 * one listed, or to the end.
 */
export type Expression = z.infer<typeof expressionSchema>;

/** Loudness as the score has it, nothing adjusted. */
export const plainExpression: Expression = { dynamicsPercent: 100, stressPercent: 100, lines: [], sections: [] };

/** What an expression makes of one note: shares of written dynamics and stress, 1 as written, and a factor on its strength. */
export interface Adjustment {
  readonly dynamicsShare: number;
  readonly stressShare: number;
  readonly factor: number;
}

/** What is played so much harder sounds so many decibels louder: sound grows with the square of strength. */
const factorOf = (levelDb: number): number => (levelDb === 0 ? 1 : exactPow(10, levelDb / 40));

/** What an expression says about a note of a line in a bar; sections hold from their bar on, whatever their order in the list. */
export function adjustmentsOf(
  { bars }: Pick<Score, 'bars'>,
  expression: Expression,
): (line: LineId | null, bar: BarId) => Adjustment {
  const ordinals = new Map(bars.map(({ id, ordinal }) => [id, ordinal]));
  const starts = expression.sections
    .flatMap((section) => {
      const ordinal = ordinals.get(section.startBar);
      return ordinal === undefined ? [] : [{ ...section, ordinal }];
    })
    .sort((a, b) => a.ordinal - b.ordinal);
  const lines = new Map(expression.lines.map((each) => [each.line, each]));
  return (lineId, bar) => {
    const section = starts.findLast(({ ordinal }) => ordinal <= (ordinals.get(bar) ?? 0));
    const line = lineId === null ? undefined : lines.get(lineId);
    const percents = [expression.dynamicsPercent, line?.dynamicsPercent ?? 100, section?.dynamicsPercent ?? 100];
    return {
      dynamicsShare: percents.reduce((share, percentage) => (share * percentage) / 100, 1),
      stressShare: expression.stressPercent / 100,
      factor: factorOf((line?.levelDb ?? 0) + (section?.levelDb ?? 0)),
    };
  };
}
