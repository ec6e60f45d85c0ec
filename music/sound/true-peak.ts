import { exactCos, exactSin } from '../basis/exact-math.ts';

/** Samples of the signal that one estimate looks at; it lies between the middle two. */
export const truePeakTaps = 12;
const phases = 4;

function windowedSinc(distance: number, half: number): number {
  const window = 0.5 + 0.5 * exactCos((Math.PI * distance) / (half + 0.5));
  const sinc = Math.abs(distance) < 1e-9 ? 1 : exactSin(Math.PI * distance) / (Math.PI * distance);
  return sinc * window;
}

/** Interpolation filters for three points between two samples. **Source** ITU-R BS.1770-4, annex 2 (4 × oversampling). */
const truePeakFilters: readonly Float64Array[] = Array.from({ length: phases - 1 }, (_, index) => {
  const half = truePeakTaps / 2;
  const filter = Float64Array.from({ length: truePeakTaps }, (__, tap) =>
    windowedSinc(tap - (half - 1) - (index + 1) / phases, half),
  );
  const sum = filter.reduce((total, value) => total + value, 0);
  return filter.map((value) => value / sum);
});

/** The largest magnitude between and at the middle samples of the `truePeakTaps` samples from `start` of `samples`. */
export function truePeakWithin(samples: Float64Array, start: number): number {
  let peak = Math.abs(samples[start + truePeakTaps / 2 - 1] as number);
  for (const filter of truePeakFilters) {
    let value = 0;
    for (let tap = 0; tap < truePeakTaps; tap += 1) value += (filter[tap] as number) * (samples[start + tap] as number);
    peak = Math.max(peak, Math.abs(value));
  }
  return peak;
}

/** The highest true peak of a channel, 1 being full scale. **Source** ITU-R BS.1770-4, annex 2. */
export function truePeakOf(samples: Float32Array): number {
  const padded = new Float64Array(samples.length + 2 * truePeakTaps);
  padded.set(samples, truePeakTaps);
  let peak = 0;
  for (let start = 0; start + truePeakTaps <= padded.length; start += 1)
    peak = Math.max(peak, truePeakWithin(padded, start));
  return peak;
}
