import { exactAtan2, exactCos, exactPow, exactSin } from '../basis/exact-math.ts';

const lowestHertz = 25;
const referenceHertz = 4000;
const silent = 1e-15;

/** How one polarisation of a string vibrates. **Units** seconds to fall by 60 dB, at the fundamental and at 4 kHz. */
export interface LoopDesign {
  hertz: number;
  ringSeconds: number;
  brightSeconds: number;
}

/**
 * One polarisation of a plucked string: a delay, a first-order loss filter and a first-order allpass in a ring,
 * whose whole delay is exactly one period at the fundamental.
 * **Source** Jaffe and Smith, Extensions of the Karplus–Strong Plucked-String Algorithm, CMJ 7(2), 1983, pp. 59–60 (fractional delay);
 * Välimäki, Huopaniemi, Karjalainen and Jánosy, JAES 44(5), 1996 (loss filter from decay times).
 */
export class StringLoop {
  /** One period; fill it to set the string moving. */
  readonly delay: Float32Array;
  length = 2;
  private readonly sampleRate: number;
  private at = 0;
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
    this.delay = new Float32Array(Math.ceil(sampleRate / lowestHertz) + 2);
  }

  /** Sets pitch and decay, at rest and undamped. */
  tune(design: LoopDesign): void {
    const hertz = Math.max(lowestHertz, design.hertz);
    this.setLoss(hertz, design.ringSeconds, design.brightSeconds);
    const turn = (2 * Math.PI * hertz) / this.sampleRate;
    const pole = this.lossPole;
    const lossDelay = exactAtan2(pole * exactSin(turn), 1 - pole * exactCos(turn)) / turn;
    const total = this.sampleRate / hertz - lossDelay;
    this.length = Math.max(2, Math.floor(total - 0.3));
    const rest = total - this.length;
    this.allpass = exactSin((turn - turn * rest) / 2) / exactSin((turn + turn * rest) / 2);
    this.at = 0;
    this.lossState = this.allpassIn = this.allpassOut = 0;
    this.damping = this.dampingGoal = 1;
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

  /** Lays a finger on the string: from now it falls by 60 dB in `seconds`. */
  damp(hertz: number, seconds: number): void {
    this.dampingGoal = exactPow(10, -3 / (hertz * seconds));
  }

  /** Adds the string's sound to `out` from sample `from` up to `to`. */
  render(out: Float32Array, from: number, to: number, gain: number): void {
    const { delay, length, lossPole, lossGain, allpass, dampingGoal } = this;
    let { at, lossState, allpassIn, allpassOut, damping } = this;
    for (let index = from; index < to; index += 1) {
      const sample = delay[at] as number;
      out[index] = (out[index] as number) + sample * gain;
      damping += (dampingGoal - damping) * 0.004;
      lossState = lossGain * sample * damping + lossPole * lossState;
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

  /** The largest deflection in the present period. */
  peak(): number {
    let peak = 0;
    for (let index = 0; index < this.length; index += 1) peak = Math.max(peak, Math.abs(this.delay[index] as number));
    return peak;
  }
}
