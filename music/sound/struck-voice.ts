import { exactCos, exactExp, exactSin } from '../basis/exact-math.ts';
import { struckCharacters, type Struck } from './instruments.data.ts';
import { decayOf, gainOfDb } from './level.ts';
import { Noise } from './noise.ts';
import type { Voice } from './voice.ts';

const mostModes = 8;
const spread = 0.012;

/** A struck thing: decaying modes and the noise of the touch. */
export class StruckVoice implements Voice {
  isActive = false;
  readonly bodyShare = 0;
  private readonly sampleRate: number;
  private readonly noise = new Noise();
  private readonly near = new Float64Array(mostModes);
  private readonly far = new Float64Array(mostModes);
  private readonly turn = new Float64Array(mostModes);
  private readonly loss = new Float64Array(mostModes);
  private modeCount = 0;
  private samplesLeft = 0;
  private noiseLevel = 0;
  private noiseDecay = 0;
  private noiseSmoothing = 0;
  private noiseState = 0;
  private noiseGain = 0;

  constructor(sampleRate: number) {
    this.sampleRate = sampleRate;
  }

  /** Strikes it; strength 0 to 1. The seed moves its modes a little, so that no two hits are the same. */
  start(struck: Struck, strength: number, seed: number, gain: number): void {
    const character = struckCharacters[struck];
    const level = gainOfDb(character.levelDb) * strength * strength * gain;
    this.noise.reseed(seed);
    this.modeCount = Math.min(mostModes, character.modes.length);
    let longest = 0;
    for (let index = 0; index < this.modeCount; index += 1) {
      const mode = character.modes[index] as (typeof character.modes)[number];
      const angle = (2 * Math.PI * mode.hertz * (1 + spread * this.noise.next())) / this.sampleRate;
      const decay = decayOf(mode.ringSeconds, this.sampleRate);
      this.turn[index] = 2 * decay * exactCos(angle);
      this.loss[index] = -decay * decay;
      this.near[index] = 0;
      this.far[index] = (-mode.share * level * exactSin(angle)) / decay;
      longest = Math.max(longest, mode.ringSeconds);
    }
    this.startNoise(character.noiseHertz, character.noiseSeconds, character.noise * level);
    this.samplesLeft = Math.ceil(longest * 1.4 * this.sampleRate);
    this.isActive = true;
  }

  private startNoise(hertz: number, seconds: number, gain: number): void {
    this.noiseLevel = 1;
    this.noiseDecay = exactExp(-1 / (seconds * this.sampleRate));
    this.noiseSmoothing = 1 - exactExp((-2 * Math.PI * hertz) / this.sampleRate);
    this.noiseState = 0;
    this.noiseGain = gain;
  }

  render(out: Float32Array, from: number, to: number): void {
    for (let mode = 0; mode < this.modeCount; mode += 1) this.renderMode(mode, out, from, to);
    let { noiseLevel, noiseState } = this;
    for (let index = from; index < to; index += 1) {
      noiseState += this.noiseSmoothing * (this.noise.next() * noiseLevel - noiseState);
      noiseLevel *= this.noiseDecay;
      out[index] = (out[index] as number) + noiseState * this.noiseGain;
    }
    this.noiseLevel = noiseLevel;
    this.noiseState = noiseState;
    this.samplesLeft -= to - from;
    if (this.samplesLeft <= 0) this.isActive = false;
  }

  private renderMode(mode: number, out: Float32Array, from: number, to: number): void {
    const turn = this.turn[mode] as number;
    const loss = this.loss[mode] as number;
    let near = this.near[mode] as number;
    let far = this.far[mode] as number;
    for (let index = from; index < to; index += 1) {
      const value = turn * near + loss * far;
      far = near;
      near = value;
      out[index] = (out[index] as number) + value;
    }
    this.near[mode] = near;
    this.far[mode] = far;
  }

  release(): void {
    this.samplesLeft = Math.min(this.samplesLeft, Math.ceil(0.4 * this.sampleRate));
  }
}
