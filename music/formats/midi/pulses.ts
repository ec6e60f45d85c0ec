import type { Meter } from '../../score/score.ts';
import { unitsPerQuarter, type MidiBar } from './bar-map.ts';

/** One pulse of a bar: what rhythms divide. **Units** `unitsPerQuarter` to a quarter, from the start of the piece. */
export interface Pulse {
  readonly bar: MidiBar;
  /** Its place in the bar, from 0. */
  readonly place: number;
  readonly startUnits: number;
  readonly lengthUnits: number;
  /** Divided in three where it is plain: the dotted pulse of 6/8. */
  readonly isCompound: boolean;
}

/** How many units of the meter each pulse of one group of it holds. */
function sizesOf(count: number, beatUnit: number): number[] {
  if (beatUnit < 8) return Array.from({ length: count * (4 / beatUnit) }, () => beatUnit / 4);
  if (count % 3 === 0) return Array.from({ length: count / 3 }, () => 3);
  const pairs = Math.floor(count / 2);
  const sizes = Array.from({ length: pairs }, () => 2);
  if (count % 2 === 1) sizes[Math.max(0, pairs - 1)] = pairs === 0 ? 1 : 3;
  return sizes;
}

const sizesOfMeter = ({ beats, beatUnit }: Meter): number[] => beats.flatMap((count) => sizesOf(count, beatUnit));

/** The pulses of a bar: quarters in simple meters, three or two units where the unit is an eighth or shorter (twos first, common practice, no source). A pickup has the last pulses of its meter; a bar that is cut short loses pulses at its end. */
export function pulsesOf(bar: MidiBar): readonly Pulse[] {
  const unit = (4 * unitsPerQuarter) / bar.meter.beatUnit;
  const pulses: Pulse[] = [];
  const sizes = sizesOfMeter(bar.meter).map((size) => size * unit);
  const meterUnits = sizes.reduce((sum, size) => sum + size, 0);
  const skipped = bar.isPickup ? meterUnits - bar.lengthUnits : 0;
  let at = 0;
  for (const size of sizes) {
    const start = Math.max(at, skipped) - skipped;
    const end = Math.min(at + size - skipped, bar.lengthUnits);
    at += size;
    if (end <= start) continue;
    const isWhole = end - start === size;
    const isCompound = isWhole && bar.meter.beatUnit >= 8 && size === 3 * unit;
    const place = pulses.length;
    pulses.push({ bar, place, startUnits: bar.startUnits + start, lengthUnits: end - start, isCompound });
  }
  return pulses;
}
