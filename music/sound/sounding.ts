import type { SoundEvent } from '../perform/performance.ts';
import type { Audition } from './auditions.ts';
import { blockSamples, type Channel } from './channel.ts';
import type { Struck } from './instruments.data.ts';
import { seedOf } from './noise.ts';
import { VoicePool, type VoiceSlot } from './voice-pool.ts';

const stringTailSeconds = 0.04;
const damperTailSeconds = 0.16;
const stopTailSeconds = 0.12;
/** No string is longer than this one's period. **Units** hertz. */
const lowestHertz = 25;

/** How an event begins to sound. */
interface Start {
  readonly channel: Channel;
  readonly gain: number;
  readonly seed: number;
  /** Within the block. */
  readonly sample: number;
}

/** What sounds at present: voices begin, take over from each other and end at their sample, each into its channel. */
export class Sounding {
  private readonly sampleRate: number;
  private readonly pool: VoicePool;
  private frame = 0;
  private elapsedSeconds = 0;
  private rate = 1;

  constructor(sampleRate: number) {
    this.sampleRate = sampleRate;
    this.pool = new VoicePool(sampleRate, Math.ceil(sampleRate / lowestHertz) + 2);
  }

  /** Begins a block at this sample of the engine and this played time. */
  beginBlock(frame: number, elapsedSeconds: number, rate: number): void {
    this.frame = frame;
    this.elapsedSeconds = elapsedSeconds;
    this.rate = rate;
  }

  /** Renders what is left of the block; what is auditioned sounds at its own pace. */
  finishBlock(auditioned: Channel): void {
    for (let index = 0; index < this.pool.slots.length; index += 1) {
      const slot = this.pool.slots[index] as VoiceSlot;
      this.renderSlot(slot, blockSamples, slot.channel === auditioned ? 1 : this.rate);
      slot.releaseInSamples -= blockSamples;
      slot.startSample = 0;
    }
  }

  /** Lets everything die away quickly. */
  stop(): void {
    this.pool.releaseAll(stopTailSeconds);
  }

  /** Begins an event. One without gain is not heard, but damps its string all the same. */
  startEvent(event: SoundEvent, { channel, gain, seed, sample }: Start): void {
    const before = gain === 0 ? null : this.takeOver(event, channel, sample);
    if (event.string !== null) this.dampString(event.string, sample);
    if (gain === 0) return;
    const slot = this.pool.start(event, seed, gain, before);
    slot.channel = channel;
    slot.startedFrame = this.frame + sample;
    slot.string = event.string;
    slot.startSample = sample;
    slot.releaseAtElapsed = this.elapsedAt(sample) + event.ringSeconds;
    slot.releaseTailSeconds = damperTailSeconds;
  }

  /** Begins an audition. */
  startAudition(audition: Audition, channel: Channel, sample: number): void {
    const slot = this.pool.start({ ...audition, fret: null }, seedOf('audition', 0), 1);
    slot.channel = channel;
    slot.startSample = sample;
    slot.releaseInSamples = sample + Math.round(audition.seconds * this.sampleRate);
    slot.releaseTailSeconds = damperTailSeconds;
  }

  /** Strikes something that has no pitch of its own. */
  strike(struck: Struck, strength: number, channel: Channel, sample: number): void {
    const slot = this.pool.strike(struck, strength, 1, 1);
    slot.channel = channel;
    slot.startSample = sample;
  }

  private elapsedAt(sample: number): number {
    return this.elapsedSeconds + (sample / this.sampleRate) * this.rate;
  }

  /** What an event that is not plucked goes on from; it ends as the event begins. */
  private takeOver(event: SoundEvent, channel: Channel, sample: number): VoiceSlot | null {
    if (event.voice.kind !== 'pitched' || event.voice.stroke !== 'legato') return null;
    const frame = this.frame + sample;
    const before =
      event.string === null
        ? this.pool.endingAt(this.elapsedAt(sample), event.voice.midi, channel, frame)
        : this.pool.ringingOn(event.string, channel, frame);
    if (before === null) return null;
    this.renderSlot(before, sample, this.rate);
    before.releaseInSamples = Infinity;
    before.isReleased = true;
    before.releasedFrame = frame;
    return before;
  }

  /** A string that is struck again ends whatever rang on it, on any line, heard or not. */
  private dampString(string: number, sample: number): void {
    for (let index = 0; index < this.pool.slots.length; index += 1) {
      const slot = this.pool.slots[index] as VoiceSlot;
      if (!slot.voice.isActive || slot.isReleased || slot.string !== string) continue;
      if (slot.startedFrame === this.frame + sample) continue;
      slot.releaseInSamples = Math.min(slot.releaseInSamples, sample);
      slot.releaseTailSeconds = stringTailSeconds;
    }
  }

  /** Renders what is left of a slot's block up to sample `to`. */
  private renderSlot(slot: VoiceSlot, to: number, rate: number): void {
    const { channel, voice } = slot;
    const from = slot.startSample;
    if (!voice.isActive || channel === null || to <= from) return;
    const until = Math.max(from, this.releaseSample(slot));
    if (until < to) {
      channel.add(voice, from, until, rate);
      slot.isReleased = true;
      slot.releasedFrame = this.frame + until;
      voice.release(slot.releaseTailSeconds);
      channel.add(voice, until, to, rate);
    } else {
      channel.add(voice, from, to, rate);
    }
    slot.startSample = to;
  }

  /** The sample of this block at which the slot is damped; Infinity where it is not, or has been. */
  private releaseSample(slot: VoiceSlot): number {
    if (slot.isReleased) return Infinity;
    const wait = (slot.releaseAtElapsed - this.elapsedSeconds) / (this.rate / this.sampleRate);
    return Math.max(0, Math.min(slot.releaseInSamples, Math.ceil(wait)));
  }
}
