import { barId, type BarId } from '../../basis/ids.ts';
import type { Bar, Jump, Key, Meter } from '../../score/score.ts';
import type { WrittenEndings } from './endings.ts';
import type { IssueLog } from './issue-log.ts';
import type { RawBar, RawPart } from './raw-part.ts';

const commonTime: Meter = { beats: [4], beatUnit: 4 };

/** How long a full bar of a meter is in ticks. */
const meterTicks = (meter: Meter, ticksPerQuarter: number): number =>
  Math.round((meter.beats.reduce((sum, beats) => sum + beats, 0) * 4 * ticksPerQuarter) / meter.beatUnit);

/** The key signature that `fifths` becomes when music moves by semitones; the signature with the fewest signs. */
function shiftedFifths(fifths: number, semitones: number): number {
  if (semitones % 12 === 0) return fifths;
  const moved = (((fifths + 7 * semitones) % 12) + 12) % 12;
  return moved > 6 ? moved - 12 : moved;
}

function firstOf<Value>(rows: readonly RawBar[], pick: (row: RawBar) => Value | null): Value | null {
  for (const row of rows) {
    const value = pick(row);
    if (value !== null) return value;
  }
  return null;
}

/** The passes on which each bar sounds; bars under no ending are left out. */
const passesByBar = ({ endings }: WrittenEndings): ReadonlyMap<number, readonly number[]> =>
  new Map(
    endings.flatMap(({ firstIndex, lastIndex, passes }) =>
      Array.from({ length: lastIndex - firstIndex + 1 }, (_, index) => [firstIndex + index, passes] as const),
    ),
  );

const everyPass: readonly number[] = [];

const jumpsOf = (rows: readonly RawBar[]): Jump[] => [...new Set(rows.flatMap((row) => row.jumps))];

interface Running {
  onsetTicks: number;
  meter: Meter;
  key: Key;
}

/** The part whose key signatures the bars carry: of those that have any the first that does not transpose by other than octaves, else the first. */
export function keyPartOf(parts: readonly RawPart[]): RawPart | undefined {
  const saying = parts.filter(({ bars }) => bars.some(({ key, keyAfter }) => key !== null || keyAfter !== null));
  return saying.find((part) => (part.transposeSemitones ?? 0) % 12 === 0) ?? saying[0] ?? parts[0];
}

/** A bar is as long as what stands in it. A rest of a whole bar makes no bar longer whose notes fill it, nor a pickup that has any. */
function lengthOf(rows: readonly RawBar[], meter: Meter, ticksPerQuarter: number): number {
  const full = meterTicks(meter, ticksPerQuarter);
  const content = Math.max(0, ...rows.map((row) => row.contentTicks));
  if (content >= full || (content > 0 && rows.some((row) => row.isImplicit))) return content;
  return Math.max(content, ...rows.map((row) => row.barRestTicks)) || full;
}

/** The bars of the score; keys as the file prints them. Bars keep their own lengths, whatever the meter. */
export function barsOf(
  parts: readonly RawPart[],
  written: WrittenEndings,
  ticksPerQuarter: number,
  idOf: (index: number) => string,
): Bar[] {
  const count = Math.max(0, ...parts.map((part) => part.bars.length));
  const running: Running = { onsetTicks: 0, meter: commonTime, key: { fifths: 0, mode: null } };
  const passes = passesByBar(written);
  const keyPart = keyPartOf(parts);
  return Array.from({ length: count }, (_, index): Bar => {
    const rows = parts.flatMap((part) => part.bars[index] ?? []);
    running.meter = firstOf(rows, (row) => row.meter) ?? running.meter;
    running.key = keyPart?.bars[index]?.key ?? running.key;
    const { meter, key } = running;
    const lengthTicks = lengthOf(rows, meter, ticksPerQuarter);
    const onsetTicks = running.onsetTicks;
    running.onsetTicks += lengthTicks;
    running.meter = firstOf(rows, (row) => row.meterAfter) ?? meter;
    running.key = keyPart?.bars[index]?.keyAfter ?? key;
    return {
      id: barId(idOf(index)),
      ordinal: index + 1,
      label: rows[0]?.label ?? String(index + 1),
      onsetTicks,
      lengthTicks,
      meter,
      key,
      isImplicit: rows[0]?.isImplicit ?? false,
      startsRepeat: rows.some((row) => row.startsRepeat),
      repeatTimes: Math.max(written.impliedRepeats.has(index) ? 2 : 0, ...rows.map((row) => row.repeatTimes)),
      endings: passes.get(index) ?? everyPass,
      jumps: jumpsOf(rows),
      rehearsalMark: firstOf(rows, (row) => row.rehearsalMark),
    };
  });
}

function mayBeShort(bars: readonly Bar[], index: number): boolean {
  const bar = bars[index];
  const next = bars[index + 1];
  if (bar === undefined || index === 0 || next === undefined || bar.isImplicit || next.isImplicit) return true;
  return bar.startsRepeat || bar.repeatTimes > 0 || next.startsRepeat || next.endings.length !== bar.endings.length;
}

/** The bars without a meter: from senza misura to the next one. **Source** MusicXML 4.0, senza-misura. */
export function unmeteredBars(parts: readonly RawPart[], bars: readonly Bar[]): BarId[] {
  let isFree = false;
  return bars.flatMap(({ id }, index) => {
    const rows = parts.flatMap((part) => part.bars[index] ?? []);
    isFree = rows.some((row) => row.isUnmetered) || (isFree && rows.every((row) => row.meter === null));
    return isFree ? [id] : [];
  });
}

/** The bars whose repeats are taken after D.C. and D.S. too. **Source** MusicXML 4.0, repeat: after-jump. */
export const repeatsAfterJump = (parts: readonly RawPart[], bars: readonly Bar[]): BarId[] =>
  bars.flatMap(({ id }, index) => (parts.some((part) => part.bars[index]?.repeatsAfterJump === true) ? [id] : []));

/** Reports bars that hold more or less than their meter, and parts that stop before their bar does. */
export function reportBarLengths(
  parts: readonly RawPart[],
  bars: readonly Bar[],
  ticksPerQuarter: number,
  log: IssueLog,
): void {
  const free = new Set(unmeteredBars(parts, bars));
  bars.forEach((bar, index) => {
    if (free.has(bar.id)) return;
    const full = meterTicks(bar.meter, ticksPerQuarter);
    for (const part of parts) reportPart(part, index, bar, full, mayBeShort(bars, index), log);
  });
}

function reportPart(part: RawPart, index: number, bar: Bar, full: number, mayBeShorter: boolean, log: IssueLog): void {
  const { contentTicks = 0, barRestTicks: rest = 0 } = part.bars[index] ?? {};
  const content = Math.max(contentTicks, Math.min(rest, bar.lengthTicks));
  const place = { partName: part.name, barIndex: index, offsetTicks: Math.min(content, full) };
  if (rest > bar.lengthTicks)
    log.add('value-repaired', 'note', 'A rest of the whole bar says that it is longer than the bar.', place);
  if (content === 0) return;
  if (content > full)
    log.add('bar-overfull', 'warning', 'The bar holds more than its meter allows; all of it was kept.', place);
  else if (content < full && (!mayBeShorter || content < bar.lengthTicks)) {
    log.add('bar-underfull', 'warning', 'The bar holds less than its meter asks for; it was kept as it is.', place);
  }
}

/** A key as it sounds, `semitones` from where it is written. */
export const soundingKey = (key: Key, semitones: number): Key => ({
  ...key,
  fifths: shiftedFifths(key.fifths, semitones),
});

/** The bars with their keys as they sound, `semitones` from where they are written. */
export function withSoundingKeys(bars: readonly Bar[], semitones: number): Bar[] {
  return bars.map((bar) => ({ ...bar, key: soundingKey(bar.key, semitones) }));
}
