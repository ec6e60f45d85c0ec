import type { LineId } from '../basis/ids.ts';
import type { Line } from '../operations/split.ts';
import type { TickRange } from '../score/excerpt.ts';
import type { Score } from '../score/score.ts';
import { assumedTempo } from '../score/assumed-tempo.ts';
import type { PerformanceNote } from './performance.ts';
import type { Stretch } from './time-map.ts';

/** What a performance was made of, as far as something may have been assumed. */
export interface Assumptions {
  readonly active: readonly Line[];
  /** The lines that were asked for. */
  readonly asked: readonly LineId[];
  readonly ranges: readonly TickRange[];
  readonly swing: readonly Stretch[];
  readonly fermatas: readonly Stretch[];
  readonly tempoWords: readonly Stretch[];
}

function tempoFinding(score: Pick<Score, 'tempos'>): readonly PerformanceNote[] {
  if (score.tempos.some((mark) => mark.quartersPerMinute > 0)) return [];
  const detail = `The score names no tempo; it is played at ${assumedTempo} quarter notes a minute.`;
  return [{ code: 'tempo-assumed', detail }];
}

const isPlayed = (ranges: readonly TickRange[], { startTicks, endTicks }: TickRange): boolean =>
  ranges.some((range) => startTicks < range.endTicks && endTicks > range.startTicks);

function swingFinding({ swings }: Pick<Score, 'swings'>, { swing, ranges }: Assumptions): readonly PerformanceNote[] {
  const played = swing.filter((stretch) => isPlayed(ranges, stretch));
  const assumed = swings.find(
    (mark, index) =>
      mark.isAssumed &&
      mark.long !== mark.short &&
      played.some(
        ({ startTicks }) => startTicks >= mark.onsetTicks && startTicks < (swings[index + 1]?.onsetTicks ?? Infinity),
      ),
  );
  if (assumed === undefined) return [];
  const detail = `The words ask for swing and give no ratio; ${assumed.unit} notes are played ${assumed.long} to ${assumed.short}.`;
  return [{ code: 'swing-assumed', detail }];
}

function fermataFinding({ fermatas, ranges }: Assumptions): readonly PerformanceNote[] {
  const { length } = fermatas.filter((stretch) => isPlayed(ranges, stretch));
  if (length === 0) return [];
  const detail = `Where a fermata stands (${length} here) the music waits: the note lasts three quarters longer.`;
  return [{ code: 'fermatas-held', detail }];
}

function tempoWordsFinding({ tempoWords, ranges }: Assumptions): readonly PerformanceNote[] {
  if (!tempoWords.some((stretch) => isPlayed(ranges, stretch))) return [];
  const detail =
    'Where words ask for slower or faster by and by and give no number, the tempo goes down by a quarter or up by one, until other words or a tempo, four bars at most.';
  return [{ code: 'tempo-words-played', detail }];
}

function linesFinding({ active, asked }: Assumptions): readonly PerformanceNote[] {
  const unknown = asked.filter((id) => !active.some((line) => line.id === id));
  if (unknown.length === 0) return [];
  return [{ code: 'lines-unknown', detail: `No such line, so it is not played: ${unknown.join(', ')}.` }];
}

/** What the score left open and how it was filled in. */
export const findingsOf = (
  score: Pick<Score, 'tempos' | 'swings'>,
  assumptions: Assumptions,
): readonly PerformanceNote[] => [
  ...tempoFinding(score),
  ...swingFinding(score, assumptions),
  ...fermataFinding(assumptions),
  ...tempoWordsFinding(assumptions),
  ...linesFinding(assumptions),
];
