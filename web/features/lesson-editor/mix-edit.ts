import type { PathStep } from '../../../contract/index.ts';
import { plainSetting, type Instrument, type Line, type LineId } from '../../../music/index.ts';
import type { HeardMix } from '../../playback/named-mixes.ts';
import { instrumentWords, levelWords, placeWords, toneWords } from '../../lib/sound-words.ts';

/** A step whose lines can be mixed. */
export type MixedStep = Extract<PathStep, { kind: 'hear' | 'echo' }>;
export type LineMix = MixedStep['mix'][number];

/** How one line of a step sounds; `instrument` null is its usual one. */
export type StepSound = Omit<LineMix, 'line' | 'instrument'> & { readonly instrument: Instrument | null };

const plain: StepSound = { levelDb: 0, place: 0, tone: 0, instrument: null };
const isPlain = ({ levelDb, place, tone, instrument }: StepSound): boolean =>
  levelDb === 0 && place === 0 && tone === 0 && instrument === null;

/** Whether the lines of a step can be mixed. */
export const isMixed = (step: PathStep): step is MixedStep => 'mix' in step;

/** How one line of a step sounds. */
export function mixOf(step: MixedStep, line: LineId): StepSound {
  const own = step.mix.find((each) => each.line === line);
  if (own === undefined) return plain;
  const { levelDb, place, tone, instrument = null } = own;
  return { levelDb, place, tone, instrument };
}

/** A step with one of its lines set otherwise. A line that is plain again is named no more. */
export function withLineMix<Step extends MixedStep>(step: Step, line: LineId, change: Partial<StepSound>): Step {
  const { levelDb, place, tone, instrument } = { ...mixOf(step, line), ...change };
  const others = step.mix.filter((each) => each.line !== line);
  if (isPlain({ levelDb, place, tone, instrument })) return { ...step, mix: others };
  const own = { line, levelDb, place, tone, ...(instrument === null ? {} : { instrument }) };
  return { ...step, mix: [...others, own] };
}

/** A step as it is heard when its lines sound together: the others are silent. */
export const heardMixOf = (step: MixedStep, lines: readonly LineId[]): HeardMix => ({
  settings: new Map(
    lines.map(
      (line) => [line, { ...plainSetting, ...mixOf(step, line), isMuted: !step.lines.includes(line) }] as const,
    ),
  ),
  forward: step.kind === 'hear' ? step.forward : null,
  lifted: new Set(),
});

/** What is left of a mix for these lines. */
export const mixWithin = (mix: readonly LineMix[], lines: readonly LineId[]): LineMix[] =>
  mix.filter(({ line }) => lines.includes(line));

/** A step's mix in a few words, lines in the split's order; null where every line is as it is. */
export function mixSummary(step: MixedStep, lines: readonly Line[]): string | null {
  const words = lines.flatMap((line) => {
    const { levelDb, place, tone, instrument } = mixOf(step, line.id);
    const parts = [
      levelDb === 0 ? [] : levelWords(levelDb),
      tone === 0 ? [] : toneWords(tone),
      place === 0 ? [] : placeWords(place),
      instrument === null ? [] : instrumentWords[instrument],
    ].flat();
    return parts.length === 0 ? [] : [`${line.name} ${parts.join(', ')}`];
  });
  return words.length === 0 ? null : words.join('; ');
}
