import { z } from 'zod';
import { barId } from '../music/index.ts';

const fraction = z.object({ numerator: z.int().min(0), denominator: z.int().min(1) });
const place = z.object({ bar: z.string().min(1).max(64).transform(barId), offset: fraction });

/** A stretch of a written score, from a place to a place. */
export const excerptSchema = z.object({ from: place, to: place });
