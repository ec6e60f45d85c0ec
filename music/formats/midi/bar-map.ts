import type { Key, Meter } from '../../score/score.ts';
import type { TimedEvent } from './open-midi.ts';

/** The grid that everything is quantised to: 16 parts of a quarter, 24 of a dotted quarter, fifths and sevenths are whole numbers of it. **Units** a quarter note. */
export const unitsPerQuarter = 1680;

/** One bar of a MIDI file in the file's ticks and on the grid. */
export interface MidiBar {
  readonly index: number;
  readonly label: string;
  readonly startTicks: number;
  readonly endTicks: number;
  readonly startUnits: number;
  readonly lengthUnits: number;
  readonly meter: Meter;
  readonly key: Key;
  /** The bar opens the piece and is shorter than the meter that follows it. */
  readonly isPickup: boolean;
}

interface Change<Value> {
  readonly ticks: number;
  readonly value: Value;
}

/** The bars of a file, and what was mended to get them. */
export interface BarMap {
  readonly bars: readonly MidiBar[];
  /** Bars that a meter change cuts short, by index. */
  readonly cutShort: readonly number[];
  /** Meters that cannot be written and were passed over. */
  readonly refusedMeters: number;
  /** True where the file names no meter that can be written. */
  readonly isMeterAssumed: boolean;
  /** True where the music goes on beyond the most bars that are read. */
  readonly isCutOff: boolean;
}

const isMeter = ({ beats, beatUnit }: Meter): boolean =>
  (beats[0] ?? 0) >= 1 && (beats[0] ?? 0) <= 64 && beatUnit <= 64;

/** Sorted by place; of several changes at one place the last one holds. */
function changesOf<Value>(changes: readonly Change<Value>[]): Change<Value>[] {
  const byTicks = new Map(changes.map((change) => [change.ticks, change]));
  return [...byTicks.values()].sort((a, b) => a.ticks - b.ticks);
}

const eventsOf = (tracks: readonly (readonly TimedEvent[])[]): TimedEvent[] => tracks.flat();

const meterChanges = (events: readonly TimedEvent[]): Change<Meter>[] =>
  events.flatMap(({ ticks, event }) =>
    event.type === 'timeSignature' ? [{ ticks, value: { beats: [event.numerator], beatUnit: event.denominator } }] : [],
  );

const keyChanges = (events: readonly TimedEvent[]): Change<Key>[] =>
  events.flatMap(({ ticks, event }): Change<Key>[] =>
    event.type === 'keySignature' && Math.abs(event.key) <= 7
      ? [{ ticks, value: { fifths: event.key, mode: event.scale === 1 ? 'minor' : 'major' } }]
      : [],
  );

/** The key signatures that a file names, in order of time. */
export const namedKeys = (tracks: readonly (readonly TimedEvent[])[]): readonly Change<Key>[] =>
  changesOf(keyChanges(eventsOf(tracks)));

const unitsOf = (meter: Meter): number =>
  (meter.beats.reduce((sum, count) => sum + count, 0) * 4 * unitsPerQuarter) / meter.beatUnit;

interface Setting {
  readonly ticksPerQuarter: number;
  readonly endTicks: number;
  readonly meters: readonly Change<Meter>[];
  readonly keyAt: (ticks: number) => Key;
  readonly mostBars: number;
}

/** What a file's bars are made from, beside its events. */
export interface BarMapOptions {
  readonly ticksPerQuarter: number;
  readonly endTicks: number;
  /** Holds until the first key that the file names. */
  readonly assumedKey: Key;
  readonly partCount: number;
}

/** More bars than anybody plays on end, hours of them; one wait of a broken file may claim millions. */
const longestPlayedBars = 4_000;
/** More measures than any score has that a person wrote, all parts taken together. */
const mostMeasures = 40_000;

/** A bar that opens the piece, lasts one bar of a shorter meter and is followed by a longer one of the same unit is a pickup. **Source** common practice of notation programs, no source. */
function pickupMeter({ meters, ticksPerQuarter }: Setting): Meter | null {
  const [first, second] = meters;
  if (first === undefined || second === undefined || first.ticks > 0) return null;
  const firstUnits = unitsOf(first.value);
  const isOneBar = Math.abs((second.ticks * unitsPerQuarter) / ticksPerQuarter - firstUnits) < 1;
  return isOneBar && firstUnits < unitsOf(second.value) ? second.value : null;
}

class BarBuilder {
  readonly bars: MidiBar[] = [];
  readonly cutShort: number[] = [];
  private startUnits = 0;
  private readonly setting: Setting;

  constructor(setting: Setting) {
    this.setting = setting;
  }

  private add(startTicks: number, lengthTicks: number, meter: Meter, lengthUnits: number, isPickup: boolean): void {
    const index = this.bars.length;
    this.bars.push({
      index,
      label: String(this.bars[0]?.isPickup === true || isPickup ? index : index + 1),
      startTicks,
      endTicks: startTicks + lengthTicks,
      startUnits: this.startUnits,
      lengthUnits,
      meter,
      key: this.setting.keyAt(startTicks),
      isPickup,
    });
    this.startUnits += lengthUnits;
  }

  /** Fills a stretch of one meter with bars; the last one may be cut short by the meter after it. */
  fill(from: number, to: number, meter: Meter, pickup: Meter | null): void {
    const { ticksPerQuarter } = this.setting;
    const units = unitsOf(meter);
    const barTicks = (units * ticksPerQuarter) / unitsPerQuarter;
    for (let count = 0; this.bars.length < this.setting.mostBars; count += 1) {
      const start = from + count * barTicks;
      const left = to - start;
      if (left <= 1e-6 * barTicks) break;
      const isCut = left < barTicks - 1e-6 * barTicks;
      const length = Math.min(barTicks, left);
      const lengthUnits = isCut ? Math.max(1, Math.round((length * unitsPerQuarter) / ticksPerQuarter)) : units;
      if (isCut) this.cutShort.push(this.bars.length);
      this.add(start, length, pickup ?? meter, lengthUnits, pickup !== null);
    }
  }
}

/** The bars that a file's meters make, up to the end of its music; 4/4 where it names none. */
export function barMapOf(
  tracks: readonly (readonly TimedEvent[])[],
  { ticksPerQuarter, endTicks, assumedKey, partCount }: BarMapOptions,
): BarMap {
  const events = eventsOf(tracks);
  const named = meterChanges(events);
  const usable = changesOf(named.filter(({ value }) => isMeter(value))).filter(
    ({ ticks }) => ticks < Math.max(1, endTicks),
  );
  const opening = { ticks: 0, value: { beats: [4], beatUnit: 4 } };
  const meters = usable[0]?.ticks === 0 ? usable : [opening, ...usable];
  const keys = changesOf(keyChanges(events));
  const keyAt = (ticks: number): Key => keys.findLast((change) => change.ticks <= ticks)?.value ?? assumedKey;
  const mostBars = Math.min(longestPlayedBars, Math.floor(mostMeasures / Math.max(1, partCount)));
  const setting = { ticksPerQuarter, endTicks, meters, keyAt, mostBars };
  const builder = new BarBuilder(setting);
  for (const [index, { ticks, value }] of meters.entries()) {
    const next = meters[index + 1]?.ticks;
    const units = unitsOf(value);
    const wholeBars = Math.max(1, Math.ceil(((endTicks - ticks) * unitsPerQuarter) / ticksPerQuarter / units - 1e-6));
    const to = next ?? ticks + (wholeBars * units * ticksPerQuarter) / unitsPerQuarter;
    builder.fill(ticks, to, value, index === 0 ? pickupMeter(setting) : null);
  }
  const { bars, cutShort } = builder;
  return {
    bars,
    cutShort,
    isMeterAssumed: usable.length === 0,
    refusedMeters: named.filter(({ value }) => !isMeter(value)).length,
    isCutOff: (bars.at(-1)?.endTicks ?? 0) + 1e-6 < endTicks,
  };
}

/** The bar that a moment of the file lies in; the last one beyond the end. */
export function barAtTicks(bars: readonly MidiBar[], ticks: number): MidiBar | undefined {
  let low = 0;
  let high = bars.length - 1;
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if ((bars[middle]?.startTicks ?? Infinity) <= ticks) low = middle;
    else high = middle - 1;
  }
  return bars[low];
}

/** A moment of the file on the grid, not yet rounded. */
export function unitsAtTicks(bars: readonly MidiBar[], ticks: number): number {
  const bar = barAtTicks(bars, ticks);
  if (bar === undefined) return 0;
  return bar.startUnits + ((ticks - bar.startTicks) * bar.lengthUnits) / (bar.endTicks - bar.startTicks);
}
