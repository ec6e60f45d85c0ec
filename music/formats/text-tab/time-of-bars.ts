import { meterOfColumns } from './meter-of-columns.ts';
import { barLength, divisions, meterOfText, type TabMeter } from './meter.ts';
import type { TabBar } from './tab-bar.ts';
import type { TabLog } from './tab-log.ts';
import { hasRhythm, timedBar, writtenLength, type TimedBar } from './timed-bar.ts';
import { cutIntoBars } from './unbarred.ts';

const commonTime: TabMeter = { beats: 4, beatUnit: 4 };

/** The plain meter of a bar so long: counted in quarters, else in eighths; null where neither does. */
function meterOfLength(length: number): TabMeter | null {
  if (length <= 0) return null;
  if (length % divisions === 0) return { beats: length / divisions, beatUnit: 4 };
  return length % (divisions / 2) === 0 ? { beats: (length * 2) / divisions, beatUnit: 8 } : null;
}

/** The meter on which most bars with a written rhythm agree. */
function meterOfRhythm(bars: readonly TabBar[]): TabMeter | null {
  const counts = new Map<number, number>();
  for (const bar of bars.filter(hasRhythm)) counts.set(writtenLength(bar), (counts.get(writtenLength(bar)) ?? 0) + 1);
  const usual = [...counts].sort((a, b) => b[1] - a[1] || b[0] - a[0])[0]?.[0];
  return usual === undefined ? null : meterOfLength(usual);
}

const nameOf = ({ beats, beatUnit }: TabMeter): string => `${beats}/${beatUnit}`;

function openingMeter(bars: readonly TabBar[], given: TabMeter | null, log: TabLog): TabMeter {
  const said = given ?? meterOfText(bars[0]?.marks.meterText ?? '');
  if (said !== null) return said;
  const byRhythm = meterOfRhythm(bars);
  const byColumns =
    byRhythm === null
      ? meterOfColumns(
          bars.filter((bar) => !isUnbarred(bar)),
          leadOf(bars),
        )
      : null;
  const meter = byRhythm ?? byColumns ?? commonTime;
  const why =
    byRhythm !== null
      ? 'was taken, as most bars of the written rhythm are so long'
      : byColumns !== null
        ? 'was taken, as most bars are drawn in three or six equal places'
        : 'was assumed';
  log.add('meter-assumed', 'note', `No meter is given; ${nameOf(meter)} ${why}.`, bars[0]?.line);
  return meter;
}

/** The columns that stand before the first note of most bars: the fewest of any. */
const leadOf = (bars: readonly TabBar[]): number => {
  const leads = bars.flatMap(({ columns }) => (columns[0] === undefined ? [] : [columns[0]]));
  return leads.length === 0 ? 0 : Math.max(0, Math.min(...leads));
};

/** The bars without the column that the dots of a repeat sign take, where they stand beside what else is drawn and not in place of its first dash. */
function withoutDots(bars: readonly TabBar[]): TabBar[] {
  const others = bars.filter(({ startsRepeat, columns }) => !startsRepeat && columns.length > 0);
  const usual = others.length === 0 ? 0 : leadOf(others);
  return bars.map((bar) => {
    const isBeside = bar.startsRepeat && (bar.columns[0] ?? Infinity) > usual;
    return isBeside ? { ...bar, columns: bar.columns.map((column) => column - 1), width: bar.width - 1 } : bar;
  });
}

const fewestForBars = 8;

/** Whether a drawn stretch without bar lines is more than one bar of music. */
const isUnbarred = ({ isAlone, isClosed, moments }: TabBar): boolean =>
  isAlone && !isClosed && moments.length > fewestForBars;

function rangeText(from: number, to: number): string {
  return from === to ? `bar ${from}` : `bars ${from} to ${to}`;
}

/** One finding for each run of bars whose rhythm is guessed. */
function reportGuesses(bars: readonly TimedBar[], log: TabLog): void {
  let from = 0;
  bars.forEach((bar, index) => {
    if (!bar.isGuessed) return;
    if (bars[index - 1]?.isGuessed !== true) from = index;
    if (bars[index + 1]?.isGuessed === true) return;
    const detail = `The rhythm of ${rangeText(from + 1, index + 1)} is not written; it was guessed from the columns, on the plainest grid that keeps the order.`;
    log.add('rhythm-guessed', 'warning', detail, bars[from]?.tab.line);
  });
}

/** A stretch without bar lines cut into bars, which is reported. */
function cut(bar: TabBar, meter: TabMeter, log: TabLog): TimedBar[] {
  const detail = `No bar lines are drawn here; one was set every ${nameOf(meter)}${hasRhythm(bar) ? '' : ', the usual distance of neighbours being an eighth'}.`;
  log.add('rhythm-guessed', 'warning', detail, bar.line);
  return cutIntoBars(bar, meter);
}

/** The bars with their times: by the rhythm that is written, else guessed, which is reported for each run of bars. */
export function timeBars(drawn: readonly TabBar[], given: TabMeter | null, log: TabLog): TimedBar[] {
  const bars = withoutDots(drawn);
  let meter = openingMeter(bars, given, log);
  const lead = leadOf(bars);
  const timed = bars.flatMap((bar, index) => {
    meter = meterOfText(bar.marks.meterText ?? '') ?? meter;
    return isUnbarred(bar) ? cut(bar, meter, log) : [timedBar(bar, meter, lead, index === 0)];
  });
  reportGuesses(timed, log);
  reportCrowded(timed, log);
  return timed;
}

function reportCrowded(bars: readonly TimedBar[], log: TabLog): void {
  bars.forEach((bar, index) => {
    if (bar.length <= barLength(bar.meter) || !bar.isGuessed) return;
    const detail = `Bar ${index + 1} holds more notes than ${nameOf(bar.meter)} has places for; it was made longer.`;
    log.add('rhythm-guessed', 'warning', detail, bar.tab.line);
  });
}
