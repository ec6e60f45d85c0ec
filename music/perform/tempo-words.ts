import type { Bar, Score } from '../score/score.ts';
import { placeOfLast } from './sorted.ts';
import type { Stretch } from './time-map.ts';

/** Words that ask for a change by and by. **Source** common practice, no source. */
const slowing =
  /\b(?:rit(?:\.|ard(?:\.|ando)?|en(?:\.|uto)?)?|rall(?:\.|entando)?|slow(?:ing)? down|allargando|calando)(?!\p{L})/iu;
const hastening =
  /\b(?:accel(?:\.|erando)?|stringendo|affrettando|speed(?:ing)? up)(?!\p{L})|(?:^|\b(?:poco|molto|sempre)\s+)string\./iu;
/** Such words taken back: the tempo is to stay. **Source** common practice, no source. */
const forbidden = /\b(?:senza|non?|without)\s+(?:rit|rall|slow|accel|string|speed)/iu;
const little = /\b(?:poco|un po['’]?)(?!\p{L})/iu;
/** How much longer or shorter than written the last of it is: slowed to three quarters of the tempo, hastened to five quarters. Common practice, no source. */
const slowest = 4 / 3;
const fastest = 4 / 5;
/** For so many bars at the most; then the tempo is what it was. Common practice, no source. */
const mostBars = 4;
const stepsPerQuarter = 4;

type WordedScore = Pick<Score, 'words' | 'tempos' | 'bars' | 'ticksPerQuarter'>;

/** The factor that the end of a change is lengthened by; null where the words ask for none. */
function goalOf(text: string): number | null {
  if (forbidden.test(text)) return null;
  const goal = slowing.test(text) ? slowest : hastening.test(text) ? fastest : null;
  return goal === null || !little.test(text) ? goal : (1 + goal) / 2;
}

/** Whether a number stands with the words: then it says all. */
function isNumbered({ tempos }: Pick<Score, 'tempos'>, ticks: number): boolean {
  const own = tempos.findLast(({ onsetTicks }) => onsetTicks === ticks);
  const before = tempos.findLast(({ onsetTicks }) => onsetTicks < ticks);
  return own !== undefined && before !== undefined && own.quartersPerMinute !== before.quartersPerMinute;
}

function lastTicks(bars: readonly Bar[], ticks: number): number {
  const bar = bars[placeOfLast(bars, ({ onsetTicks }) => onsetTicks, ticks) + mostBars - 1] ?? bars.at(-1);
  return bar === undefined ? ticks : bar.onsetTicks + bar.lengthTicks;
}

function stepsTo(goal: number, startTicks: number, endTicks: number, ticksPerQuarter: number): readonly Stretch[] {
  const count = Math.max(1, Math.round((stepsPerQuarter * (endTicks - startTicks)) / ticksPerQuarter));
  const at = (step: number): number => startTicks + ((endTicks - startTicks) * step) / count;
  return Array.from({ length: count }, (_, step) => ({
    startTicks: at(step),
    endTicks: at(step + 1),
    factor: 1 + ((goal - 1) * (step + 0.5)) / count,
  }));
}

/**
 * The written ticks that words such as *rit.* and *accel.* without a number lengthen and shorten, little by little: until
 * the next words of tempo, the next tempo that differs, or for four bars at the most.
 */
export function tempoWordStretches(score: WordedScore): readonly Stretch[] {
  const words = score.words
    .map(({ onsetTicks, kind, text }) => ({ onsetTicks, kind, goal: goalOf(text) }))
    .filter(({ kind, goal }) => kind === 'tempo' || (kind === 'other' && goal !== null));
  const differing = score.tempos.filter(
    (mark, index) => mark.quartersPerMinute !== score.tempos[index - 1]?.quartersPerMinute,
  );
  const ends = [...words, ...differing].map(({ onsetTicks }) => onsetTicks);
  const goals = new Map(words.flatMap(({ onsetTicks, goal }) => (goal === null ? [] : [[onsetTicks, goal] as const])));
  return [...goals].flatMap(([startTicks, goal]) => {
    if (isNumbered(score, startTicks)) return [];
    const later = ends.filter((ticks) => ticks > startTicks);
    const endTicks = Math.min(lastTicks(score.bars, startTicks), ...later);
    return endTicks <= startTicks ? [] : stepsTo(goal, startTicks, endTicks, score.ticksPerQuarter);
  });
}
