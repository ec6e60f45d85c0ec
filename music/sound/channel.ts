import { exactCos, exactExp, exactSin } from '../basis/exact-math.ts';
import { GuitarBody } from './body.ts';
import { gainOfDb, smoothingOf } from './level.ts';
import type { Voice } from './voice.ts';

/** How many samples are rendered at once. */
export const blockSamples = 128;

/** What is set for one channel. */
export interface ChannelMix {
  readonly levelDb: number;
  /** −1 (left) to 1 (right). */
  readonly place: number;
  /** −1 (dark) to 1 (bright); 0 leaves the sound as it is. */
  readonly tone: number;
  readonly isAudible: boolean;
}

/** A channel as nobody has touched it. */
export const plainMix: ChannelMix = { levelDb: 0, place: 0, tone: 0, isAudible: true };

const smoothSeconds = 0.008;
const toneHertz = 900;
const toneRangeDb = 9;
const restBlocks = 800;

/** The bus of one line: its voices through the body, then tone, level and place, each moving without a click. */
export class Channel {
  private readonly body: GuitarBody;
  private readonly wood = new Float32Array(blockSamples);
  private readonly bus = new Float32Array(blockSamples);
  private readonly smoothing: number;
  private readonly toneSmoothing: number;
  private toneLow = 0;
  private brightness = 1;
  private brightnessGoal = 1;
  private leftGain = Math.SQRT1_2;
  private rightGain = Math.SQRT1_2;
  private leftGoal = Math.SQRT1_2;
  private rightGoal = Math.SQRT1_2;
  private quietBlocks = restBlocks;

  constructor(sampleRate: number) {
    this.body = new GuitarBody(sampleRate);
    this.smoothing = smoothingOf(smoothSeconds, sampleRate);
    this.toneSmoothing = 1 - exactExp((-2 * Math.PI * toneHertz) / sampleRate);
  }

  /** Sets the goals; `isSudden` reaches them before the next sample, for a channel that is silent. */
  set(mix: ChannelMix, isSudden: boolean): void {
    const gain = mix.isAudible ? gainOfDb(mix.levelDb) : 0;
    const angle = ((Math.min(1, Math.max(-1, mix.place)) + 1) * Math.PI) / 4;
    this.leftGoal = gain * exactCos(angle);
    this.rightGoal = gain * exactSin(angle);
    this.brightnessGoal = mix.tone === 0 ? 1 : gainOfDb(Math.min(1, Math.max(-1, mix.tone)) * toneRangeDb);
    if (!isSudden) return;
    this.leftGain = this.leftGoal;
    this.rightGain = this.rightGoal;
    this.brightness = this.brightnessGoal;
  }

  /** The two buses that voices add to; cleared for a new block. */
  begin(): void {
    this.wood.fill(0);
    this.bus.fill(0);
  }

  /** Lets one voice sound from sample `from` up to `to`. */
  add(voice: Voice, from: number, to: number): void {
    if (to <= from) return;
    voice.render(voice.isThroughBody ? this.wood : this.bus, from, to);
    this.quietBlocks = 0;
  }

  /** Adds the finished block to both sides and to the room. A channel long at rest costs nothing. */
  finish(left: Float32Array, right: Float32Array, send: Float32Array): void {
    if (this.quietBlocks >= restBlocks) {
      this.leftGain = this.leftGoal;
      this.rightGain = this.rightGoal;
      this.brightness = this.brightnessGoal;
      return;
    }
    this.quietBlocks += 1;
    if (this.quietBlocks === restBlocks) this.body.clear();
    this.body.render(this.wood, this.bus, blockSamples);
    this.mixDown(left, right, send);
  }

  private mixDown(left: Float32Array, right: Float32Array, send: Float32Array): void {
    const { bus, smoothing, toneSmoothing, leftGoal, rightGoal, brightnessGoal } = this;
    let { toneLow, brightness, leftGain, rightGain } = this;
    for (let index = 0; index < blockSamples; index += 1) {
      const sample = bus[index] as number;
      leftGain += (leftGoal - leftGain) * smoothing;
      rightGain += (rightGoal - rightGain) * smoothing;
      brightness += (brightnessGoal - brightness) * smoothing;
      toneLow += (sample - toneLow) * toneSmoothing;
      const shaped = sample + (brightness - 1) * (sample - toneLow);
      left[index] = (left[index] as number) + shaped * leftGain;
      right[index] = (right[index] as number) + shaped * rightGain;
      send[index] = (send[index] as number) + shaped * (leftGain + rightGain) * 0.5;
    }
    this.toneLow = Math.abs(toneLow) > 1e-15 ? toneLow : 0;
    this.brightness = settled(brightness, brightnessGoal);
    this.leftGain = settled(leftGain, leftGoal);
    this.rightGain = settled(rightGain, rightGoal);
  }
}

const settled = (value: number, goal: number): number => (Math.abs(value - goal) < 1e-6 ? goal : value);
