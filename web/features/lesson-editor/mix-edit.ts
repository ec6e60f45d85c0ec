import type { PathStep } from '../../../contract/index.ts';
import type { Line, LineId } from '../../../music/index.ts';
import { levelWords, placeWords } from '../../lib/sound-words.ts';

/** A step whose lines can be mixed. */
export type MixedStep = Extract<PathStep, { kind: 'hear' | 'echo' }>;
export type LineMix = MixedStep['mix'][number];
type Sound = Omit<LineMix, 'line'>;

const plain: Sound = { levelDb: 0, place: 0 };
const isPlain = ({ levelDb, place }: Sound): boolean => levelDb === plain.levelDb && place === plain.place;

/** Whether the lines of a step can be mixed. */
export const isMixed = (step: PathStep): step is MixedStep => 'mix' in step;

/** Level and place of one line of a step. **Units** decibels; −1 (left) to 1 (right). */
export const mixOf = (step: MixedStep, line: LineId): Sound => step.mix.find((each) => each.line === line) ?? plain;

/** A step with one of its lines set otherwise. A line that is plain again is named no more. */
export function withLineMix<Step extends MixedStep>(step: Step, line: LineId, change: Partial<Sound>): Step {
  const { levelDb, place } = { ...mixOf(step, line), ...change };
  const others = step.mix.filter((each) => each.line !== line);
  return { ...step, mix: isPlain({ levelDb, place }) ? others : [...others, { line, levelDb, place }] };
}

/** What is left of a mix for these lines. */
export const mixWithin = (mix: readonly LineMix[], lines: readonly LineId[]): LineMix[] =>
  mix.filter(({ line }) => lines.includes(line));

/** A step's mix in a few words, lines in the split's order; null where every line is as it is. */
export function mixSummary(step: MixedStep, lines: readonly Line[]): string | null {
  const words = lines.flatMap((line) => {
    const { levelDb, place } = mixOf(step, line.id);
    const parts = [levelDb === 0 ? [] : levelWords(levelDb), place === 0 ? [] : placeWords(place)].flat();
    return parts.length === 0 ? [] : [`${line.name} ${parts.join(', ')}`];
  });
  return words.length === 0 ? null : words.join('; ');
}
