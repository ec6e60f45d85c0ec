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

/** No point between samples is further out than this many times the largest of the samples that are looked at. */
const furthest = Math.max(...truePeakFilters.map((filter) => filter.reduce((sum, tap) => sum + Math.abs(tap), 0)));

/** Takes a channel piece by piece and tells its highest true peak so far, 1 being full scale. **Source** ITU-R BS.1770-4, annex 2. */
export class RunningTruePeak {
  private peak = 0;
  private readonly recent = new Float64Array(2 * truePeakTaps);
  private at = 0;
  /** For how many samples a large one stays within reach of the filters. */
  private watchLeft = 0;

  /** Takes the next piece. */
  add(samples: Float32Array): void {
    for (let index = 0; index < samples.length; index += 1) this.addSample(samples[index] as number);
  }

  private addSample(sample: number): void {
    const { at, recent } = this;
    recent[at] = recent[at + truePeakTaps] = sample;
    this.at = at + 1 === truePeakTaps ? 0 : at + 1;
    if (Math.abs(sample) * furthest > this.peak) this.watchLeft = truePeakTaps;
    if (this.watchLeft === 0) return;
    this.watchLeft -= 1;
    this.peak = Math.max(this.peak, truePeakWithin(recent, this.at));
  }

  /** The highest true peak, as if silence followed. */
  finish(): number {
    for (let index = 0; index < truePeakTaps; index += 1) this.addSample(0);
    return this.peak;
  }
}

/** The highest true peak of a channel, 1 being full scale. **Source** ITU-R BS.1770-4, annex 2. */
export function truePeakOf(samples: Float32Array): number {
  const running = new RunningTruePeak();
  running.add(samples);
  return running.finish();
}
