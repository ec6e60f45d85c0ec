import { fraction, gcd, lcm, type Fraction } from '../../basis/fraction.ts';
import { limits } from '../limits.ts';
import type { AbcBar, AbcEvent, AbcVoice } from './abc-events.ts';
import { fullBar, times, type AbcMeter } from './abc-time.ts';
import { printedValues } from './abc-values.ts';

const coarseDivisions = 10_080;

/** The quarters that an event lasts, tuplet included. */
export function quartersOf({ printed, tuplet, isWholeBar }: AbcEvent, meter: AbcMeter): Fraction {
  const whole = isWholeBar ? fullBar(meter) : printed;
  const ratio = tuplet === null || isWholeBar ? fraction(4) : fraction(4 * tuplet.normal, tuplet.actual);
  return times(whole, ratio);
}

/** The divisions of a quarter that hold every length; where there are none that are small enough, lengths are rounded. */
export function divisionsOf(voices: readonly AbcVoice[]): { readonly divisions: number; readonly isExact: boolean } {
  let divisions = 1;
  for (const { bars } of voices)
    for (const { layers, meter } of bars)
      for (const event of layers.flat())
        for (const value of event.isWholeBar
          ? [fullBar(meter)]
          : printedValues(event.printed).map(({ length }) => length)) {
          const { denominator } = quartersOf({ ...event, printed: value }, meter);
          if (denominator % gcd(divisions, denominator) === 0) divisions = lcm(divisions, denominator);
          if (divisions > limits.ticksPerQuarter) return { divisions: coarseDivisions, isExact: false };
        }
  return { divisions, isExact: true };
}

/** The quarters of a bar's longest layer. */
export function quartersOfBar(bar: AbcBar): Fraction {
  const lengths = bar.layers.map((layer) =>
    layer
      .map((event) => quartersOf(event, bar.meter))
      .reduce((sum, length) => {
        const exact =
          (sum.numerator * length.denominator + length.numerator * sum.denominator) /
          (sum.denominator * length.denominator);
        const common = lcm(sum.denominator, length.denominator);
        return common > limits.ticksPerQuarter
          ? fraction(Math.round(exact * coarseDivisions), coarseDivisions)
          : fraction(Math.round(exact * common), common);
      }, fraction(0)),
  );
  const quartersIn = ({ numerator, denominator }: Fraction): number => numerator / denominator;
  return lengths.reduce(
    (longest, length) => (quartersIn(length) > quartersIn(longest) ? length : longest),
    fraction(0),
  );
}
