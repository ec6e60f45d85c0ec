import type { Bar } from '../score/score.ts';

/** Bars that lie between a repeat's first bar and the end of its last ending. **Shape** `firstIndex` and `lastIndex` are places in `Score.bars`, both within. */
export interface RepeatSection {
  readonly firstIndex: number;
  readonly lastIndex: number;
  /** How many times the section is played in all. */
  readonly times: number;
}

/** More passes than anybody prints; a file that asks for more gets these. */
const mostTimes = 99;

/** The last bar of the run of endings that begins at `index`: endings follow one another until a bar without, or a new repeat. */
function endOfEndings(bars: readonly Bar[], index: number): number {
  let last = index;
  for (let next = index + 1; next < bars.length; next += 1) {
    const bar = bars[next];
    if (bar === undefined || bar.endings.length === 0 || bar.startsRepeat) break;
    if (isNewRun(bars, next)) break;
    last = next;
  }
  return last;
}

/** Whether a bar's endings begin a new set of endings: they name a pass again that the bar before has already left behind. */
function isNewRun(bars: readonly Bar[], index: number): boolean {
  const before = bars[index - 1]?.endings ?? [];
  const here = bars[index]?.endings ?? [];
  const isSame = here.length === before.length && here.every((pass, place) => pass === before[place]);
  return !isSame && Math.min(...here) < Math.min(...before);
}

function sectionEndingAt(bars: readonly Bar[], firstIndex: number, index: number): RepeatSection {
  const hasEnding = (bars[index]?.endings.length ?? 0) > 0;
  const lastIndex = hasEnding ? endOfEndings(bars, index) : index;
  const within = bars.slice(firstIndex, lastIndex + 1);
  const asked = within.flatMap((bar) => [bar.repeatTimes, ...bar.endings]);
  return { firstIndex, lastIndex, times: Math.min(mostTimes, Math.max(...asked)) };
}

/** The repeats of a score in order; none lies within another, for signs do not nest. A repeat without a beginning goes back to the end of the one before it, or to the first bar. */
export function repeatSections(bars: readonly Bar[]): readonly RepeatSection[] {
  const sections: RepeatSection[] = [];
  let firstIndex = 0;
  for (let index = 0; index < bars.length; index += 1) {
    const bar = bars[index];
    if (bar?.startsRepeat === true) firstIndex = index;
    if (bar === undefined || bar.repeatTimes === 0) continue;
    const section = sectionEndingAt(bars, firstIndex, index);
    sections.push(section);
    index = section.lastIndex;
    firstIndex = index + 1;
  }
  return sections;
}
