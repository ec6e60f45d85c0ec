import type { Annotations } from './annotations.ts';
import { guessOnsets } from './guess-rhythm.ts';
import { barLength, type TabMeter } from './meter.ts';
import type { Moment } from './moments.ts';
import type { TabBar } from './tab-bar.ts';

/** A moment or a rest with its time in its bar. **Units** divisions. */
export interface TimedEvent {
  readonly onset: number;
  readonly length: number;
  /** Null for a rest. */
  readonly moment: Moment | null;
  /** Whether it was struck in the bar before. */
  readonly isContinued: boolean;
  /** Whether it goes on in the bar after. */
  readonly goesOn: boolean;
}

/** A bar whose time is known. */
export interface TimedBar {
  readonly tab: TabBar;
  readonly marks: Annotations;
  readonly meter: TabMeter;
  readonly events: readonly TimedEvent[];
  /** **Units** divisions. */
  readonly length: number;
  readonly isGuessed: boolean;
  readonly isPickup: boolean;
}

/** An event that lies within its bar. */
export const whole = (onset: number, length: number, moment: Moment | null): TimedEvent => ({
  onset,
  length,
  moment,
  isContinued: false,
  goesOn: false,
});

/** Whether the rhythm that is written reaches every moment of a bar. */
export function hasRhythm({ moments, marks }: TabBar): boolean {
  const reached = new Set(marks.steps.map(({ moment }) => moment));
  return moments.length > 0 && moments.every((moment) => reached.has(moment));
}

/** The length of a bar by the rhythm that is written. **Units** divisions. */
export const writtenLength = ({ marks }: TabBar): number => marks.steps.reduce((sum, { length }) => sum + length, 0);

function writtenEvents({ marks }: TabBar): TimedEvent[] {
  let onset = 0;
  return marks.steps.map(({ moment, length }) => {
    const event = whole(onset, length, moment);
    onset += length;
    return event;
  });
}

function guessedEvents(bar: TabBar, lead: number, meter: TabMeter): TimedEvent[] {
  const onsets = guessOnsets(bar.columns, bar.width, lead, meter);
  const first = onsets[0] ?? 0;
  const end = Math.max(barLength(meter), (onsets.at(-1) ?? 0) + 1);
  const rest = first > 0 ? [whole(0, first, null)] : [];
  const notes = bar.moments.map((moment, index) => {
    const onset = onsets[index] ?? 0;
    return whole(onset, (onsets[index + 1] ?? end) - onset, moment);
  });
  return [...rest, ...notes];
}

/** A bar with its written rhythm, else with a guessed one; `lead` is how many columns usually stand before a bar's first note. */
export function timedBar(bar: TabBar, meter: TabMeter, lead: number, isFirst: boolean): TimedBar {
  const full = barLength(meter);
  const base = { tab: bar, marks: bar.marks, meter };
  if (bar.moments.length === 0)
    return { ...base, events: [whole(0, full, null)], length: full, isGuessed: false, isPickup: false };
  if (hasRhythm(bar)) {
    const length = writtenLength(bar);
    return { ...base, events: writtenEvents(bar), length, isGuessed: false, isPickup: isFirst && length < full };
  }
  const events = guessedEvents(bar, Math.min(lead, bar.columns[0] ?? 0), meter);
  const last = events.at(-1);
  const length = last === undefined ? full : last.onset + last.length;
  return { ...base, events, length, isGuessed: true, isPickup: false };
}
