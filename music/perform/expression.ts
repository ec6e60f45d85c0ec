import { z } from 'zod';
import { barId, lineId } from '../basis/ids.ts';

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
