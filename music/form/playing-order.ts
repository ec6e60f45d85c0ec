import type { BarId } from '../basis/ids.ts';
import type { Bar, Jump, Score } from '../score/score.ts';
import { repeatSections, type RepeatSection } from './repeat-sections.ts';

/** One playing of a written bar. */
export interface UnfoldedBar {
  readonly bar: BarId;
  /** Its place in the order of playing, from 1. */
  readonly ordinal: number;
  /** How many times this bar has come by now, from 1; bar and pass together name one playing. */
  readonly pass: number;
  /** **Units** ticks of playing time, from the start of the first bar that is played. */
  readonly onsetTicks: number;
}

/** Nothing that a person wrote is longer; an order that a broken file asks for ends here. */
const mostPlayedBars = 100_000;

/** What the order of playing follows from. */
type Played = Pick<Score, 'bars'> & Partial<Pick<Score, 'repeatsAfterJump'>>;

interface Walk {
  readonly bars: readonly Bar[];
  readonly sections: readonly (RepeatSection | undefined)[];
  readonly hasJumps: boolean;
  /** The bars at whose ends a return leaves for the coda. */
  readonly leavesForCoda: ReadonlySet<number>;
  readonly usedJumps: Set<number>;
  /** The pass through the present repeat. */
  pass: number;
  /** The repeats that end at these bars are taken after a return too. */
  readonly afterJump: ReadonlySet<BarId>;
  /** After D.C. or D.S.: repeats are not taken again unless they say so, and Fine and To Coda count. */
  isReturning: boolean;
}

const returns = ({ jumps }: Bar): boolean => jumps.includes('daCapo') || jumps.includes('dalSegno');

const indexesOf = (bars: readonly Bar[], jump: Jump): number[] =>
  bars.flatMap((bar, index) => (bar.jumps.includes(jump) ? [index] : []));

/** Where To Coda stands; where none does, the coda signs before a return that has one after it too: two bare signs are the way there and its end (common practice, no source). */
function leavesForCoda(bars: readonly Bar[]): ReadonlySet<number> {
  const told = indexesOf(bars, 'toCoda');
  if (told.length > 0) return new Set(told);
  const returnIndex = bars.findIndex(returns);
  const signs = indexesOf(bars, 'coda');
  const hasLanding = signs.some((index) => index > returnIndex);
  return new Set(hasLanding ? signs.filter((index) => index <= returnIndex) : []);
}

function newWalk({ bars, repeatsAfterJump = [] }: Played): Walk {
  const sections: (RepeatSection | undefined)[] = bars.map(() => undefined);
  for (const section of repeatSections(bars)) sections.fill(section, section.firstIndex, section.lastIndex + 1);
  const hasJumps = bars.some(returns);
  return {
    bars,
    sections,
    hasJumps,
    leavesForCoda: leavesForCoda(bars),
    usedJumps: new Set(),
    afterJump: new Set(repeatsAfterJump),
    pass: 1,
    isReturning: false,
  };
}

/** Whether a section's repeat is taken even after a return. */
const repeatsAgain = ({ bars, afterJump }: Walk, { firstIndex, lastIndex }: RepeatSection): boolean =>
  afterJump.size > 0 &&
  bars.slice(firstIndex, lastIndex + 1).some(({ id, repeatTimes }) => repeatTimes > 0 && afterJump.has(id));

function sounds(walk: Walk, index: number): boolean {
  const endings = walk.bars[index]?.endings ?? [];
  if (endings.length === 0) return true;
  const section = walk.sections[index];
  if (section === undefined) return !walk.hasJumps || endings.includes(walk.isReturning ? 2 : 1);
  const isLastPass = walk.isReturning && !repeatsAgain(walk, section);
  return endings.includes(isLastPass ? section.times : walk.pass);
}

function segnoFor({ bars }: Walk, index: number): number {
  const before = bars.findLastIndex((bar, place) => place <= index && bar.jumps.includes('segno'));
  return before >= 0 ? before : bars.findIndex(({ jumps }) => jumps.includes('segno'));
}

function codaFor({ bars }: Walk, index: number): number {
  const after = bars.findIndex((bar, place) => place > index && bar.jumps.includes('coda'));
  return after >= 0 ? after : bars.findIndex(({ jumps }) => jumps.includes('coda'));
}

/** Where a sign at the end of a bar leads; null where it leads nowhere now. */
function jumpFrom(walk: Walk, index: number): number | null {
  const jumps: readonly Jump[] = walk.bars[index]?.jumps ?? [];
  if (walk.isReturning && jumps.includes('fine')) return walk.bars.length;
  if (walk.isReturning && walk.leavesForCoda.has(index)) {
    const coda = codaFor(walk, index);
    walk.isReturning = coda < 0;
    if (coda >= 0) return coda;
  }
  if (walk.usedJumps.has(index)) return null;
  const target = jumps.includes('daCapo') ? 0 : jumps.includes('dalSegno') ? segnoFor(walk, index) : -1;
  if (target < 0) return null;
  walk.usedJumps.add(index);
  walk.isReturning = true;
  return target;
}

function nextIndex(walk: Walk, index: number): number {
  const section = walk.sections[index];
  const wasPlayed = sounds(walk, index);
  const endsRepeat = wasPlayed && (walk.bars[index]?.repeatTimes ?? 0) > 0;
  const isTaken = section !== undefined && (!walk.isReturning || repeatsAgain(walk, section));
  if (isTaken && endsRepeat && walk.pass < section.times) {
    walk.pass += 1;
    return section.firstIndex;
  }
  const target = wasPlayed ? jumpFrom(walk, index) : null;
  if (target !== null || walk.sections[index + 1] !== section) walk.pass = 1;
  return target ?? index + 1;
}

/** The bars in the order in which they sound: repeats and endings unfolded, D.C., D.S., coda and Fine followed, repeats not taken again after a return (common practice, no source) unless their sign says so. Every jump is taken once, so that the order always ends. */
export function playingOrder(score: Played): readonly UnfoldedBar[] {
  const walk = newWalk(score);
  const passes = new Map<BarId, number>();
  const played: UnfoldedBar[] = [];
  let onsetTicks = 0;
  for (let index = 0; index < score.bars.length && played.length < mostPlayedBars; index = nextIndex(walk, index)) {
    const bar = score.bars[index];
    if (bar === undefined || !sounds(walk, index)) continue;
    const pass = (passes.get(bar.id) ?? 0) + 1;
    passes.set(bar.id, pass);
    played.push({ bar: bar.id, ordinal: played.length + 1, pass, onsetTicks });
    onsetTicks += bar.lengthTicks;
  }
  return played;
}
