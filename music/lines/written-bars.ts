import type { TickRange } from '../score/excerpt.ts';
import type { Bar, Score } from '../score/score.ts';
import type { BarSigns, WrittenBar } from '../score/written.ts';
import { signsIn } from './bar-signs.ts';
import { meterTree, meterUnits, type MetricNode } from './meter-tree.ts';
import { unitsPerQuarter } from './note-values.ts';

/** One bar of a written-out score: what is printed, where it stands in the source, and how it divides. */
export interface BarFrame {
  readonly written: Omit<WrittenBar, 'directions'>;
  /** **Units** ticks of the written score. */
  readonly startTicks: number;
  readonly endTicks: number;
  /** The bar's first moment counted from the start of its meter: 3 beats for a pickup of one in 4/4. **Units** ticks. */
  readonly phaseTicks: number;
  readonly tree: MetricNode;
}

/** How long a full bar of a meter is in ticks. */
export const meterTicks = (bar: Pick<Bar, 'meter'>, ticksPerQuarter: number): number =>
  (meterUnits(bar.meter) * ticksPerQuarter) / unitsPerQuarter;

const missingTicks = (bar: Bar, ticksPerQuarter: number): number => meterTicks(bar, ticksPerQuarter) - bar.lengthTicks;

/** A first bar that is short by whole sixteenths is a pickup; one that is short by less begins where it stands. */
const pickupPhase = (missing: number, ticksPerQuarter: number): number =>
  (missing * 4) % ticksPerQuarter === 0 ? missing : 0;

/** How far into its meter each bar begins: the second half of a split bar goes on where the first one stopped, and a pickup ends where its meter does. */
function barPhases({ bars, ticksPerQuarter }: Pick<Score, 'bars' | 'ticksPerQuarter'>): readonly number[] {
  const phases: number[] = [];
  for (const [index, bar] of bars.entries()) {
    const missing = missingTicks(bar, ticksPerQuarter);
    const before = bars[index - 1];
    if (missing <= 0) phases.push(0);
    else if (before === undefined) phases.push(pickupPhase(missing, ticksPerQuarter));
    else {
      const reached = (phases[index - 1] ?? 0) + before.lengthTicks;
      const isSecondPart = missingTicks(before, ticksPerQuarter) > 0 && reached === missing;
      phases.push(isSecondPart ? missing : 0);
    }
  }
  return phases;
}

/** What a frame is made from: a bar, how far into its meter it begins, and what is printed at its edges. */
interface FramePlan {
  readonly bar: Bar;
  readonly barPhase: number;
  readonly signs: BarSigns;
}

/** Trees by meter and reach, so that bars that divide alike share one. */
class Trees {
  private readonly known = new Map<string, MetricNode>();

  treeOf(meter: Bar['meter'], reachUnits: number): MetricNode {
    const key = `${meter.beats.join('+')}/${meter.beatUnit} ${reachUnits}`;
    const tree = this.known.get(key) ?? meterTree(meter, reachUnits);
    this.known.set(key, tree);
    return tree;
  }
}

/** What all frames are cut from. */
interface FrameSetting {
  readonly ticksPerQuarter: number;
  readonly range: TickRange;
  readonly trees: Trees;
}

function frameOf({ bar, barPhase, signs }: FramePlan, { ticksPerQuarter, range, trees }: FrameSetting): BarFrame {
  const startTicks = Math.max(bar.onsetTicks, range.startTicks);
  const endTicks = Math.min(bar.onsetTicks + bar.lengthTicks, range.endTicks);
  const lengthTicks = endTicks - startTicks;
  const phaseTicks = barPhase + startTicks - bar.onsetTicks;
  const isPartial = lengthTicks < Math.max(bar.lengthTicks, meterTicks(bar, ticksPerQuarter));
  const written = { bar: bar.id, label: bar.label, lengthTicks, meter: bar.meter, key: bar.key, isPartial, signs };
  const reachUnits = ((phaseTicks + lengthTicks) * unitsPerQuarter) / ticksPerQuarter;
  return { written, startTicks, endTicks, phaseTicks, tree: trees.treeOf(bar.meter, reachUnits) };
}

const noSigns: BarSigns = {
  startsRepeat: false,
  repeatTimes: 0,
  repeatsAfterJump: false,
  endings: [],
  jumps: [],
  rehearsalMark: null,
};

/** The bars that the range touches, cut at its edges. */
export function barFrames(
  score: Pick<Score, 'bars' | 'ticksPerQuarter' | 'repeatsAfterJump'>,
  range: TickRange,
): readonly BarFrame[] {
  const phases = barPhases(score);
  const signs = signsIn(score, range);
  const setting = { ticksPerQuarter: score.ticksPerQuarter, range, trees: new Trees() };
  return score.bars.flatMap((bar, index): readonly BarFrame[] => {
    const isTouched = bar.onsetTicks < range.endTicks && bar.onsetTicks + bar.lengthTicks > range.startTicks;
    const plan = { bar, barPhase: phases[index] ?? 0, signs: signs[index] ?? noSigns };
    return isTouched ? [frameOf(plan, setting)] : [];
  });
}
