import { noAnnotations, type Annotations } from './annotations.ts';
import { barLength, divisions, type TabMeter } from './meter.ts';
import type { TabBar } from './tab-bar.ts';
import { hasRhythm, whole, type TimedBar, type TimedEvent } from './timed-bar.ts';

const eighth = divisions / 2;

/** The distance between neighbours that most have; of equals the smaller. */
function usualGap(columns: readonly number[]): number {
  const counts = new Map<number, number>();
  columns.slice(1).forEach((column, index) => {
    const gap = column - (columns[index] ?? 0);
    if (gap > 0) counts.set(gap, (counts.get(gap) ?? 0) + 1);
  });
  return [...counts].sort((a, b) => b[1] - a[1] || a[0] - b[0])[0]?.[0] ?? 1;
}

/** The usual distance of columns counted as an eighth, each moment at least one after the one before. */
function eighthsOf(columns: readonly number[]): number[] {
  const gap = usualGap(columns);
  const first = columns[0] ?? 0;
  let before = -1;
  return columns.map((column) => {
    before = Math.max(before + 1, Math.round((column - first) / gap));
    return before * eighth;
  });
}

function eventsOf(bar: TabBar): TimedEvent[] {
  if (hasRhythm(bar)) {
    let onset = 0;
    return bar.marks.steps.map(({ moment, length }) => {
      onset += length;
      return whole(onset - length, length, moment);
    });
  }
  const onsets = eighthsOf(bar.columns);
  return bar.moments.map((moment, index) => {
    const onset = onsets[index] ?? 0;
    return whole(onset, (onsets[index + 1] ?? onset + eighth) - onset, moment);
  });
}

/** The part of an event that lies in a bar. */
function within(event: TimedEvent, from: number, to: number): TimedEvent[] {
  const start = Math.max(event.onset, from);
  const end = Math.min(event.onset + event.length, to);
  if (end <= start) return [];
  const isNote = event.moment !== null;
  return [
    {
      onset: start - from,
      length: end - start,
      moment: event.moment,
      isContinued: isNote && event.onset < from,
      goesOn: isNote && event.onset + event.length > to,
    },
  ];
}

/** What a bar that is not the first of its drawn one takes from it: all that is set to a moment. */
function laterMarks(marks: Annotations): Annotations {
  const atMoments = (texts: Annotations['chords']): Annotations['chords'] =>
    new Map([...texts].filter(([moment]) => moment !== null));
  return {
    ...noAnnotations(),
    chords: atMoments(marks.chords),
    wordsAbove: atMoments(marks.wordsAbove),
    wordsBelow: atMoments(marks.wordsBelow),
    lyrics: marks.lyrics,
    palmMuted: marks.palmMuted,
    lettingRing: marks.lettingRing,
  };
}

const endOf = (event: TimedEvent | undefined): number => (event === undefined ? 0 : event.onset + event.length);

interface BarSetting {
  readonly bar: TabBar;
  readonly meter: TabMeter;
  readonly marks: Annotations;
}

/** One bar of the stretch, filled up with a rest. */
function barOf({ bar, meter, marks }: BarSetting, own: readonly TimedEvent[]): TimedBar {
  const length = barLength(meter);
  const sounded = endOf(own.at(-1));
  return {
    tab: bar,
    marks,
    meter,
    events: sounded < length ? [...own, whole(sounded, length - sounded, null)] : own,
    length,
    isGuessed: !hasRhythm(bar),
    isPickup: false,
  };
}

/** A drawn stretch without bar lines cut into bars of its meter: by its written rhythm, else by its columns. */
export function cutIntoBars(bar: TabBar, meter: TabMeter): TimedBar[] {
  const events = eventsOf(bar);
  const length = barLength(meter);
  const later = laterMarks(bar.marks);
  const end = Math.max(length, endOf(events.at(-1)));
  let first = 0;
  return Array.from({ length: Math.max(1, Math.ceil(end / length)) }, (_, index) => {
    const from = index * length;
    while (endOf(events[first]) <= from && first < events.length) first += 1;
    const own: TimedEvent[] = [];
    for (let at = first; (events[at]?.onset ?? Infinity) < from + length; at += 1)
      own.push(...within(events[at] as TimedEvent, from, from + length));
    return barOf({ bar, meter, marks: index === 0 ? bar.marks : later }, own);
  });
}
