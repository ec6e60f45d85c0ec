import type { Meter } from '../../score/score.ts';
import type { NoteValue } from '../../score/written.ts';

/** The beams of one event, from the eighth's beam on. **Source** MusicXML 4.0, beam-value. */
export type Beams = readonly ('begin' | 'continue' | 'end' | 'forward hook' | 'backward hook')[];

/** A rest (no heads) or what is struck at a moment of a bar, with its printed type. */
export interface Beamable {
  readonly onsetTicks: number;
  readonly value: Pick<NoteValue, 'type'>;
  readonly heads: { readonly length: number };
}

const flagCounts: Readonly<Record<NoteValue['type'], number>> = {
  maxima: 0,
  long: 0,
  breve: 0,
  whole: 0,
  half: 0,
  quarter: 0,
  eighth: 1,
  '16th': 2,
  '32nd': 3,
  '64th': 4,
  '128th': 5,
  '256th': 6,
};

/** How many units of the meter each group of beamed notes spans: threes where the meter is compound, quarters in other meters of eighths. **Source** common practice, no source. */
function groupUnits({ beats, beatUnit }: Meter): number[] {
  if (beatUnit < 8 || beats.length > 1)
    return beats.length > 1 ? [...beats] : Array.from({ length: beats[0] ?? 1 }, () => 1);
  const total = beats[0] ?? 1;
  if (total % 3 === 0) return Array.from({ length: total / 3 }, () => 3);
  const step = Math.max(1, beatUnit / 4);
  const groups = Array.from({ length: Math.floor(total / step) }, () => step);
  const left = total % step;
  if (left > 0 && groups.length > 0) groups.unshift((groups.shift() ?? 0) + left);
  return groups.length > 0 ? groups : [total];
}

/** The ticks at which beams break, from the start of a full bar. */
function breaksOf(meter: Meter, ticksPerQuarter: number): number[] {
  const unitTicks = (ticksPerQuarter * 4) / meter.beatUnit;
  let at = 0;
  return groupUnits(meter).map((units) => (at += units * unitTicks));
}

const groupAt = (breaks: readonly number[], ticks: number): number => {
  const index = breaks.findIndex((end) => ticks < end);
  return index < 0 ? breaks.length + Math.floor(ticks) : index;
};

/** Whether a beam may hold an event. */
export const canBeam = (event: Pick<Beamable, 'value' | 'heads'>): boolean =>
  event.heads.length > 0 && flagCounts[event.value.type] > 0;

/** The beams of one event of a run that shares a beam. */
export function beamsWithin(group: readonly Pick<Beamable, 'value'>[], index: number): Beams {
  const flags = (at: number): number => {
    const event = group[at];
    return event === undefined ? 0 : flagCounts[event.value.type];
  };
  return Array.from({ length: flags(index) }, (_, level) => {
    const joinsBefore = flags(index - 1) > level;
    const joinsAfter = flags(index + 1) > level;
    if (joinsBefore) return joinsAfter ? 'continue' : 'end';
    if (joinsAfter) return 'begin';
    return index === 0 ? 'forward hook' : 'backward hook';
  });
}

/** The events of a bar in runs that share a beam. */
function runsOf<Event extends Beamable>(
  events: readonly Event[],
  breaks: readonly number[],
  shiftTicks: number,
): Event[][] {
  const runs: Event[][] = [];
  let lastGroup: number | null = null;
  for (const event of events) {
    const group = canBeam(event) ? groupAt(breaks, event.onsetTicks + shiftTicks) : null;
    if (group !== null && group === lastGroup) runs.at(-1)?.push(event);
    else if (group !== null) runs.push([event]);
    lastGroup = group;
  }
  return runs;
}

/** The beams of the events of one bar, which join notes within a beat. `shiftTicks` is how late in its meter the bar begins. */
export function beamsOfBar<Event extends Beamable>(
  events: readonly Event[],
  meter: Meter,
  ticksPerQuarter: number,
  shiftTicks: number,
): ReadonlyMap<Event, Beams> {
  const beams = new Map<Event, Beams>();
  for (const run of runsOf(events, breaksOf(meter, ticksPerQuarter), shiftTicks)) {
    if (run.length > 1) run.forEach((event, index) => beams.set(event, beamsWithin(run, index)));
  }
  return beams;
}
