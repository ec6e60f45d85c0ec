import { exactCos, exactExp, exactSin } from '../basis/exact-math.ts';
import { GuitarBody } from './body.ts';
import { Glide } from './glide.ts';
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

/** Two smoothers in a row, so that a change has no corner; together they take about 8 ms. */
const smoothSeconds = 0.004;
const toneHertz = 600;
const toneRangeDb = 10;
const restBlocks = 800;
/** After so long nothing is left in the body, whose lowest mode falls by 60 dB in 0.2 s. */
const bodyRestBlocks = 200;

/** How far the smoother below which tone leaves everything alone goes in one sample. */
export const toneSmoothingOf = (sampleRate: number): number => 1 - exactExp((-2 * Math.PI * toneHertz) / sampleRate);

/** What a tone multiplies the highs with; 1 at tone 0. */
export const brightnessOf = (tone: number): number =>
  tone === 0 ? 1 : gainOfDb(Math.min(1, Math.max(-1, tone)) * toneRangeDb);

/** The bus of one line: its voices through the body, then tone, level and place, each moving without a click. */
export class Channel {
  private readonly body: GuitarBody;
  private readonly wood = new Float32Array(blockSamples);
  private readonly bus = new Float32Array(blockSamples);
  private readonly alone = new Float32Array(blockSamples);
  private readonly smoothing: number;
  private readonly toneSmoothing: number;
  private toneLow = 0;
  private readonly bright = new Glide(1);
  private readonly leftGain = new Glide(Math.SQRT1_2);
  private readonly rightGain = new Glide(Math.SQRT1_2);
  private quietBlocks = restBlocks;
  private woodQuietBlocks = bodyRestBlocks;

  constructor(sampleRate: number) {
    this.body = new GuitarBody(sampleRate);
    this.smoothing = smoothingOf(smoothSeconds, sampleRate);
    this.toneSmoothing = toneSmoothingOf(sampleRate);
  }

  /** Sets the goals; a channel that is at rest is there at once. */
  set(mix: ChannelMix): void {
    const gain = mix.isAudible ? gainOfDb(mix.levelDb) : 0;
    const angle = ((Math.min(1, Math.max(-1, mix.place)) + 1) * Math.PI) / 4;
    this.leftGain.goal = gain * exactCos(angle);
    this.rightGain.goal = gain * exactSin(angle);
    this.bright.goal = brightnessOf(mix.tone);
    if (this.isAtRest) this.arrive();
  }

  /** Nothing has sounded here for so long that nothing is left of it. */
  get isAtRest(): boolean {
    return this.quietBlocks >= restBlocks;
  }

  /** Whether it sounds, or is to sound, at any level. */
  isHeard(): boolean {
    return !this.isAtRest && this.leftGain.goal + this.rightGain.goal > 0;
  }

  private arrive(): void {
    this.leftGain.arrive();
    this.rightGain.arrive();
    this.bright.arrive();
  }

  /** The two buses that voices add to; cleared for a new block. */
  begin(): void {
    this.wood.fill(0);
    this.bus.fill(0);
  }

  /** Lets one voice sound from sample `from` up to `to`, at the rate of playing. */
  add(voice: Voice, from: number, to: number, rate: number): void {
    if (to <= from) return;
    this.quietBlocks = 0;
    const { bodyShare } = voice;
    if (bodyShare > 0) this.woodQuietBlocks = 0;
    if (bodyShare === 1) voice.render(this.wood, from, to, rate);
    else if (bodyShare === 0) voice.render(this.bus, from, to, rate);
    else this.addShared(voice, from, to, rate);
  }

  private addShared(voice: Voice, from: number, to: number, rate: number): void {
    const { alone, wood, bus } = this;
    const { bodyShare } = voice;
    alone.fill(0, from, to);
    voice.render(alone, from, to, rate);
    for (let index = from; index < to; index += 1) {
      const sample = alone[index] as number;
      wood[index] = (wood[index] as number) + sample * bodyShare;
      bus[index] = (bus[index] as number) + sample * (1 - bodyShare);
    }
  }

  /** Adds the finished block to both sides, to the room, and its strings to those that sing along. A channel long at rest costs nothing. */
  finish(left: Float32Array, right: Float32Array, send: Float32Array, ring: Float32Array): void {
    if (this.isAtRest) {
      this.arrive();
      return;
    }
    this.quietBlocks += 1;
    this.renderBody();
    this.mixDown(left, right, send, ring);
  }

  private renderBody(): void {
    if (this.woodQuietBlocks >= bodyRestBlocks) return;
    this.woodQuietBlocks += 1;
    this.body.render(this.wood, this.bus, blockSamples);
    if (this.woodQuietBlocks === bodyRestBlocks) this.body.clear();
  }

  private mixDown(left: Float32Array, right: Float32Array, send: Float32Array, ring: Float32Array): void {
    const { bright, leftGain, rightGain } = this;
    if (bright.isSettled && leftGain.isSettled && rightGain.isSettled) {
      this.mixSteadily(left, right, send, bright.value - 1, leftGain.value, rightGain.value);
      this.sendStrings(ring, (leftGain.value + rightGain.value) * 0.5);
      return;
    }
    for (let index = 0; index < blockSamples; index += 1) {
      const sample = this.bus[index] as number;
      const onLeft = leftGain.next(this.smoothing);
      const onRight = rightGain.next(this.smoothing);
      this.toneLow += (sample - this.toneLow) * this.toneSmoothing;
      const shaped = sample + (bright.next(this.smoothing) - 1) * (sample - this.toneLow);
      left[index] = (left[index] as number) + shaped * onLeft;
      right[index] = (right[index] as number) + shaped * onRight;
      const onSend = (onLeft + onRight) * 0.5;
      send[index] = (send[index] as number) + shaped * onSend;
      ring[index] = (ring[index] as number) + (this.wood[index] as number) * onSend;
    }
    bright.settle();
    leftGain.settle();
    rightGain.settle();
  }

  private sendStrings(ring: Float32Array, gain: number): void {
    for (let index = 0; index < blockSamples; index += 1)
      ring[index] = (ring[index] as number) + (this.wood[index] as number) * gain;
  }

  private mixSteadily(
    left: Float32Array,
    right: Float32Array,
    send: Float32Array,
    brightness: number,
    onLeft: number,
    onRight: number,
  ): void {
    const { bus, toneSmoothing } = this;
    const onSend = (onLeft + onRight) * 0.5;
    let { toneLow } = this;
    for (let index = 0; index < blockSamples; index += 1) {
      const sample = bus[index] as number;
      toneLow += (sample - toneLow) * toneSmoothing;
      const shaped = sample + brightness * (sample - toneLow);
      left[index] = (left[index] as number) + shaped * onLeft;
      right[index] = (right[index] as number) + shaped * onRight;
      send[index] = (send[index] as number) + shaped * onSend;
    }
    this.toneLow = Math.abs(toneLow) > 1e-15 ? toneLow : 0;
  }
}
