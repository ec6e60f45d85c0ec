import { exactAtan2, exactCos, exactPow, exactSin } from '../basis/exact-math.ts';

const lowestHertz = 25;
const referenceHertz = 4000;
const silent = 1e-15;
const dampingShare = 0.004;
/** A cubic looks at samples on both sides of its place. */
const leadSamples = 3;
const warmSamples = 48;

/** How one polarisation of a string vibrates. **Units** seconds to fall by 60 dB, at the fundamental and at 4 kHz. */
export interface LoopDesign {
  hertz: number;
  ringSeconds: number;
  brightSeconds: number;
  /** Whether its pitch will move: then its period is read between samples, which costs more and darkens it by a hair. */
  isMoving: boolean;
}

/**
 * One polarisation of a plucked string: a delay, a first-order loss filter and a fractional delay in a ring, whose whole
 * delay is exactly one period at the fundamental. The fraction is a first-order allpass where the pitch is steady, and
 * a cubic between samples where it moves, since that has no memory that a change could upset.
 * **Source** Jaffe and Smith, Extensions of the Karplus–Strong Plucked-String Algorithm, CMJ 7(2), 1983, pp. 59–60 (fractional delay);
 * Välimäki, Huopaniemi, Karjalainen and Jánosy, JAES 44(5), 1996 (loss filter from decay times);
 * Laakso, Välimäki, Karjalainen and Laine, Splitting the Unit Delay, IEEE Signal Processing Magazine 13(1), 1996 (Lagrange).
 */
export class StringLoop {
  /** How many samples of a shape set it moving. */
  shapeSamples = 2;
  private readonly delay: Float32Array;
  private readonly mask: number;
  private readonly sampleRate: number;
  private isMoving = false;
  private periodSamples = 100;
  private length = 2;
  private at = 0;
  private lag = 100;
  private lagStep = 0;
  private lossPole = 0;
  private lossGain = 0;
  private allpass = 0;
  private lossState = 0;
  private allpassIn = 0;
  private allpassOut = 0;
  private damping = 1;
  private dampingGoal = 1;

  constructor(sampleRate: number) {
    this.sampleRate = sampleRate;
    let size = 64;
    while (size < sampleRate / lowestHertz + 8) size *= 2;
    this.delay = new Float32Array(size);
    this.mask = size - 1;
  }

  /** Sets pitch and decay, undamped; what it holds is to be filled anew. */
  tune(design: LoopDesign): void {
    const hertz = Math.max(lowestHertz, design.hertz);
    this.setLoss(hertz, design.ringSeconds, design.brightSeconds);
    this.isMoving = design.isMoving;
    this.periodSamples = this.sampleRate / hertz;
    const total = this.lagOf(hertz);
    this.lag = total;
    this.lagStep = 0;
    this.length = design.isMoving ? Math.floor(total) + leadSamples : Math.max(2, Math.floor(total - 0.3));
    this.shapeSamples = design.isMoving ? this.length - leadSamples : this.length;
    const turn = (2 * Math.PI * hertz) / this.sampleRate;
    const rest = total - this.length;
    this.allpass = exactSin((turn - turn * rest) / 2) / exactSin((turn + turn * rest) / 2);
    this.at = design.isMoving ? this.length : 0;
    this.lossState = this.allpassIn = this.allpassOut = 0;
    this.damping = this.dampingGoal = 1;
  }

  /** The period less what the loss filter delays the fundamental. **Units** samples. */
  private lagOf(hertz: number): number {
    const turn = (2 * Math.PI * hertz) / this.sampleRate;
    const pole = this.lossPole;
    return this.sampleRate / hertz - exactAtan2(pole * exactSin(turn), 1 - pole * exactCos(turn)) / turn;
  }

  /** The pole and gain of b / (1 − a z⁻¹) that give both decay times, in closed form, held below unity gain everywhere. */
  private setLoss(hertz: number, ringSeconds: number, brightSeconds: number): void {
    const upperHertz = Math.max(referenceHertz, hertz * 1.5);
    const low = exactPow(10, -3 / (hertz * ringSeconds));
    const high = exactPow(10, -3 / (hertz * Math.min(brightSeconds, ringSeconds * 0.98)));
    const cosLow = exactCos((2 * Math.PI * hertz) / this.sampleRate);
    const cosHigh = exactCos((2 * Math.PI * Math.min(upperHertz, this.sampleRate * 0.45)) / this.sampleRate);
    const ratio = (high / low) * (high / low);
    const p = cosLow - ratio * cosHigh;
    const q = 1 - ratio;
    const pole = q < 1e-12 ? 0 : (p - Math.sqrt(Math.max(0, p * p - q * q))) / q;
    this.lossPole = Math.min(0.95, Math.max(0, pole));
    const gain = low * Math.sqrt(1 - 2 * this.lossPole * cosLow + this.lossPole * this.lossPole);
    this.lossGain = Math.min(gain, 0.99999 * (1 - this.lossPole));
  }

  /** Sets it moving with the first `count` samples of `shape`, one period; what is heard begins with the first. */
  fill(shape: Float64Array, count: number, gain: number): void {
    const lead = this.isMoving ? count - leadSamples : 0;
    for (let index = 0; index < this.length; index += 1)
      this.delay[index] = (shape[(index + lead) % count] as number) * gain;
    this.warm(shape, count, gain);
  }

  /** Brings the filters to where a string that had always moved like this would have them. */
  private warm(shape: Float64Array, count: number, gain: number): void {
    const { lossPole, lossGain, allpass } = this;
    let { lossState, allpassIn, allpassOut } = this;
    const seam = this.periodSamples - (count - 1);
    for (let before = Math.min(warmSamples, count); before >= 1; before -= 1) {
      const place = this.periodSamples - before;
      const whole = Math.min(count - 1, Math.floor(place));
      const part = (place - whole) / (whole === count - 1 ? seam : 1);
      const here = shape[whole] as number;
      const sample = here + ((shape[(whole + 1) % count] as number) - here) * part;
      lossState = lossGain * sample * gain + lossPole * lossState;
      allpassOut = allpass * (lossState - allpassOut) + allpassIn;
      allpassIn = lossState;
    }
    this.lossState = lossState;
    this.allpassIn = allpassIn;
    this.allpassOut = allpassOut;
  }

  /** Leads a moving pitch to `hertz` within the next `samples`. */
  aim(hertz: number, samples: number): void {
    this.periodSamples = this.sampleRate / hertz;
    this.lagStep = (this.lagOf(hertz) - this.lag) / samples;
  }

  /** Ends a moving pitch where it is. */
  hold(): void {
    this.lagStep = 0;
  }

  /** Lays a finger on the string: from now it falls by 60 dB in `seconds`; Infinity lifts the finger. */
  damp(hertz: number, seconds: number): void {
    this.dampingGoal = exactPow(10, -3 / (hertz * seconds));
  }

  /** Adds the string's sound to `out` from sample `from` up to `to`. */
  render(out: Float32Array, from: number, to: number, gain: number): void {
    if (this.isMoving) this.renderMoving(out, from, to, gain);
    else this.renderSteady(out, out, from, to, 0, gain);
  }

  /** The same for a steady string that is driven by `input`, `feed` strong. */
  renderDriven(input: Float32Array, out: Float32Array, count: number, feed: number, gain: number): void {
    this.renderSteady(input, out, 0, count, feed, gain);
  }

  private renderSteady(
    input: Float32Array,
    out: Float32Array,
    from: number,
    to: number,
    feed: number,
    gain: number,
  ): void {
    const { delay, length, lossPole, lossGain, allpass, dampingGoal } = this;
    let { at, lossState, allpassIn, allpassOut, damping } = this;
    for (let index = from; index < to; index += 1) {
      const sample = delay[at] as number;
      const driven = feed === 0 ? sample : sample + feed * (input[index] as number);
      out[index] = (out[index] as number) + sample * gain;
      damping += (dampingGoal - damping) * dampingShare;
      lossState = lossGain * driven * damping + lossPole * lossState;
      allpassOut = allpass * (lossState - allpassOut) + allpassIn;
      allpassIn = lossState;
      delay[at] = allpassOut;
      at += 1;
      if (at >= length) at = 0;
    }
    this.at = at;
    this.damping = damping;
    this.lossState = Math.abs(lossState) > silent ? lossState : 0;
    this.allpassIn = Math.abs(allpassIn) > silent ? allpassIn : 0;
    this.allpassOut = Math.abs(allpassOut) > silent ? allpassOut : 0;
  }

  private renderMoving(out: Float32Array, from: number, to: number, gain: number): void {
    const { delay, mask, lossPole, lossGain, dampingGoal, lagStep } = this;
    let { at, lossState, damping, lag } = this;
    for (let index = from; index < to; index += 1) {
      const whole = Math.floor(lag);
      const part = lag - whole;
      const near = at - whole;
      const less = part - 1;
      const least = part - 2;
      const more = part + 1;
      const sample =
        (((delay[(near - 2) & mask] as number) * more - (delay[(near + 1) & mask] as number) * least) * part * less) /
          6 +
        (((delay[near & mask] as number) * less - (delay[(near - 1) & mask] as number) * part) * more * least) / 2;
      out[index] = (out[index] as number) + sample * gain;
      damping += (dampingGoal - damping) * dampingShare;
      lossState = lossGain * sample * damping + lossPole * lossState;
      delay[at & mask] = lossState;
      at = (at + 1) & mask;
      lag += lagStep;
    }
    this.at = at;
    this.lag = lag;
    this.damping = damping;
    this.lossState = Math.abs(lossState) > silent ? lossState : 0;
  }

  /** Fills `shape` with the coming period as `other` would have it at its own pitch. */
  copyPeriodTo(other: StringLoop, shape: Float64Array): void {
    const held = this.isMoving ? Math.floor(this.lag) : this.length;
    const seam = this.periodSamples - (held - 1);
    for (let index = 0; index < other.shapeSamples; index += 1) {
      const place = (index * this.periodSamples) / other.periodSamples;
      const whole = Math.min(held - 1, Math.floor(place));
      const part = whole === held - 1 ? (place - whole) / seam : place - whole;
      const here = this.heldAt(whole);
      shape[index] = here + ((whole === held - 1 ? this.heldAt(0) : this.heldAt(whole + 1)) - here) * part;
    }
  }

  /** The sample that comes after `steps` more. */
  private heldAt(steps: number): number {
    const { delay, mask } = this;
    if (!this.isMoving) return delay[(this.at + steps) % this.length] as number;
    const from = this.at - this.lag + steps;
    const whole = Math.floor(from);
    const here = delay[whole & mask] as number;
    return here + ((delay[(whole + 1) & mask] as number) - here) * (from - whole);
  }

  /** The largest deflection in the present period. */
  peak(): number {
    let peak = 0;
    const first = this.isMoving ? this.at - this.length : 0;
    for (let index = 0; index < this.length; index += 1)
      peak = Math.max(peak, Math.abs(this.delay[(first + index) & this.mask] as number));
    return peak;
  }

  /** Stills it. */
  clear(): void {
    this.delay.fill(0);
    this.lossState = this.allpassIn = this.allpassOut = 0;
  }
}
