import type { LineId } from '../basis/ids.ts';
import type { Click, Performance, SoundEvent } from '../perform/performance.ts';
import { Auditions, type Audition } from './auditions.ts';
import { Bus } from './bus.ts';
import { blockSamples, Channel, plainMix, type ChannelMix } from './channel.ts';
import type { ClickSetting } from './clicks.ts';
import { Drone } from './drone.ts';
import { Glide } from './glide.ts';
import { gainOfDb, smoothingOf } from './level.ts';
import { Limiter } from './limiter.ts';
import { seedOf } from './noise.ts';
import { Playing } from './playing.ts';
import type { Programme } from './programme.ts';
import type { SecondsRange, Stage } from './stages.ts';
import { Transport, type TransportTarget } from './transport.ts';
import { VoicePool, type VoiceSlot } from './voice-pool.ts';

const stringTailSeconds = 0.04;
const damperTailSeconds = 0.16;
const stopTailSeconds = 0.12;
const auditionSeconds = 1.6;
/** Room for peaks, so that the limiter is at rest in all but the loudest music. */
const headroomDb = -4;
const volumeSmoothSeconds = 0.01;

/** The mix of the lines, by line; a line that is not named is plain. `loose` is for notes on no line. */
export interface EngineMix {
  readonly lines: readonly { readonly line: LineId; readonly mix: ChannelMix }[];
  readonly loose: ChannelMix;
}

/** What the engine tells about itself; the same object every time. */
export interface EngineReport {
  isPlaying: boolean;
  stageKind: Stage['kind'] | null;
  /** The pass of the programme, or −1 in the count-in before it. */
  pass: number;
  /** Stages begun since playing began, from 1. */
  stageNumber: number;
  /** The sample, counted from the engine's first, at which the present stage began. */
  stageStartFrame: number;
  positionSeconds: number;
  stageEndSeconds: number;
  rate: number;
  /** Samples rendered so far. */
  frame: number;
}

/**
 * Sound and transport in one: plain arithmetic, no clock, no device. Rendered block by block; the same calls between
 * the same blocks give the same samples on every engine. **Units** 128 samples a block.
 */
export class SoundEngine implements TransportTarget {
  readonly report: EngineReport = {
    isPlaying: false,
    stageKind: null,
    pass: 0,
    stageNumber: 0,
    stageStartFrame: 0,
    positionSeconds: 0,
    stageEndSeconds: 0,
    rate: 1,
    frame: 0,
  };
  readonly latencySamples: number;
  private readonly sampleRate: number;
  private readonly pool: VoicePool;
  private readonly buses: Bus[] = [];
  private readonly channelBuses: Bus[] = [];
  private readonly isSeparate: boolean;
  private readonly limiter: Limiter;
  private readonly transport: Transport;
  private readonly playing: Playing;
  private readonly auditions: Auditions;
  private readonly loose: Channel;
  private readonly auditioned: Channel;
  private readonly drone: Drone;
  private readonly clicks: Channel;
  private readonly channels: Channel[] = [];
  private readonly byLine = new Map<LineId, Channel>();
  private eventChannels: Channel[] = [];
  private eventGainPlaces: number[] = [];
  private seeds: number[] = [];
  private mix: EngineMix = { lines: [], loose: plainMix };
  private readonly volume = new Glide(gainOfDb(headroomDb));
  private readonly volumeSmoothing: number;
  private blockStartElapsed = 0;

  /** `separate` gives every channel a bus and a room of its own, so that each can be taken off before the whole is limited. */
  constructor(sampleRate: number, channels: 'together' | 'separate' = 'together') {
    this.sampleRate = sampleRate;
    this.isSeparate = channels === 'separate';
    this.pool = new VoicePool(sampleRate, Math.ceil(sampleRate / 25) + 2);
    this.limiter = new Limiter(sampleRate);
    this.latencySamples = this.limiter.latencySamples;
    this.transport = new Transport(sampleRate, this);
    this.playing = new Playing(this.transport);
    this.auditions = new Auditions(sampleRate);
    this.loose = this.newChannel();
    this.auditioned = this.newChannel();
    this.drone = new Drone(sampleRate);
    this.clicks = this.newChannel();
    this.volumeSmoothing = smoothingOf(volumeSmoothSeconds, sampleRate);
  }

  /** Takes a performance and the stretch of it that repeats; what is being played goes on at the same written place. */
  load(performance: Performance, loop: SecondsRange | null = null): void {
    for (const line of performance.lines) if (!this.byLine.has(line)) this.addChannel(line);
    const channelOf = (event: SoundEvent): Channel =>
      event.line === null ? this.loose : (this.byLine.get(event.line) ?? this.loose);
    const places = new Map(performance.lines.map((line, index) => [line, index]));
    this.eventChannels = performance.events.map(channelOf);
    this.eventGainPlaces = performance.events.map((event) =>
      event.line === null ? performance.lines.length : (places.get(event.line) ?? performance.lines.length),
    );
    this.seeds = performance.events.map((event) => seedOf(event.note, 0));
    for (const bus of this.buses) bus.tune(performance.tuning);
    this.playing.load(performance, loop);
    this.endIfNothingIsLeft();
  }

  private endIfNothingIsLeft(): void {
    if (this.report.isPlaying && !this.transport.isRunning) this.stop();
  }

  private newChannel(): Channel {
    const channel = new Channel(this.sampleRate);
    const shared = this.isSeparate ? undefined : this.buses[0];
    const bus = shared ?? new Bus(this.sampleRate);
    if (shared === undefined) this.buses.push(bus);
    this.channels.push(channel);
    this.channelBuses.push(bus);
    return channel;
  }

  private addChannel(line: LineId): void {
    const channel = this.newChannel();
    channel.set(this.mix.lines.find((each) => each.line === line)?.mix ?? plainMix);
    this.byLine.set(line, channel);
  }

  /** What a line, the notes on no line or the click give to the whole, block by block; of use where channels are separate. */
  busOf(source: LineId | 'loose' | 'click'): Bus | undefined {
    const own = source === 'loose' ? this.loose : source === 'click' ? this.clicks : this.byLine.get(source);
    return own === undefined ? undefined : this.channelBuses[this.channels.indexOf(own)];
  }

  /** Sets levels, places, tones and who is heard; smooth while sounding. */
  setMix(mix: EngineMix): void {
    this.mix = mix;
    this.setChannel(this.loose, mix.loose);
    for (const [line, channel] of this.byLine)
      this.setChannel(channel, mix.lines.find((each) => each.line === line)?.mix ?? plainMix);
  }

  /** Sets a channel; what sounds and falls silent is not to go on in the open strings. */
  private setChannel(channel: Channel, mix: ChannelMix): void {
    const wasHeard = channel.isHeard();
    channel.set(mix);
    if (wasHeard && !channel.isHeard()) this.channelBuses[this.channels.indexOf(channel)]?.hush();
  }

  /** The level of everything together. */
  setVolume(levelDb: number): void {
    this.volume.goal = gainOfDb(levelDb + headroomDb);
    if (this.report.frame === 0) this.volume.arrive();
  }

  /** The tempo as a share of the written one, 0.25 to 1.5; the position does not move. */
  setRate(rate: number): void {
    this.report.rate = Math.min(1.5, Math.max(0.25, rate));
    this.transport.setRate(this.report.rate);
  }

  /** Switches the click and its subdivision; it holds from the next click on. */
  setClick(setting: ClickSetting): void {
    this.transport.clickSetting = setting;
  }

  /** The stretch that repeats; null for none. While playing, the position stays if it lies within. */
  setLoop(loop: SecondsRange | null): void {
    this.playing.setLoop(loop);
    this.endIfNothingIsLeft();
  }

  /** What the passes do; it holds from the next `play`. */
  setProgramme(programme: Programme | null): void {
    this.playing.setProgramme(programme);
  }

  /** Begins to play, after a count-in where asked for; a programme in its first pass unless told which. */
  play(fromSeconds: number, countInBars: number, pass = 0): void {
    if (this.playing.performance === null) return;
    this.pool.releaseAll(stopTailSeconds);
    for (const bus of this.buses) bus.damp(false);
    this.report.stageNumber = 0;
    this.playing.begin({ seconds: fromSeconds, pass, countInBars });
    this.report.isPlaying = this.transport.isRunning;
  }

  /** Stops, and lets what sounds die away quickly. */
  stop(): void {
    this.transport.stop();
    this.auditions.clear();
    this.report.isPlaying = false;
    this.pool.releaseAll(stopTailSeconds);
    for (const bus of this.buses) bus.damp(true);
  }

  /** Sounds one event of the performance at once, whatever is muted. */
  auditionEvent(index: number): void {
    const event = this.playing.performance?.events[index];
    if (event !== undefined)
      this.audition({ ...event, seconds: Math.min(auditionSeconds, event.ringSeconds), afterSeconds: 0 });
  }

  /** Sounds anything at once or a little later, whatever is muted. */
  audition(audition: Audition): void {
    this.auditions.add(audition);
  }

  /** Holds one soft tone under everything, whether music plays or not; null ends it. **Units** MIDI note number. */
  setDrone(midi: number | null): void {
    this.drone.set(midi);
  }

  private readonly startAudition = (audition: Audition, sample: number): void => {
    const slot = this.pool.start({ ...audition, fret: null }, seedOf('audition', 0), 1);
    slot.channel = this.auditioned;
    slot.startSample = sample;
    slot.releaseInSamples = sample + Math.round(audition.seconds * this.sampleRate);
    slot.releaseTailSeconds = damperTailSeconds;
  };

  startEvent(index: number, stage: Stage, sample: number): void {
    const event = this.playing.performance?.events[index];
    const channel = this.eventChannels[index];
    if (event === undefined || channel === undefined) return;
    const gain = stage.gains === null ? 1 : (stage.gains[this.eventGainPlaces[index] as number] ?? 0);
    const before = gain === 0 ? null : this.takeOver(event, channel, sample);
    if (event.string !== null) this.dampString(event, sample);
    if (gain === 0) return;
    const slot = this.pool.start(event, this.seeds[index] as number, gain, before);
    slot.channel = channel;
    slot.startedFrame = this.report.frame + sample;
    slot.string = event.string;
    slot.startSample = sample;
    slot.releaseAtElapsed = this.elapsedAt(sample) + event.ringSeconds;
    slot.releaseTailSeconds = damperTailSeconds;
  }

  private elapsedAt(sample: number): number {
    return this.blockStartElapsed + (sample / this.sampleRate) * this.report.rate;
  }

  /** What an event that is not plucked goes on from; it ends as the event begins. */
  private takeOver(event: SoundEvent, channel: Channel, sample: number): VoiceSlot | null {
    if (event.voice.kind !== 'pitched' || event.voice.stroke !== 'legato') return null;
    const frame = this.report.frame + sample;
    const before =
      event.string === null
        ? this.pool.endingAt(this.elapsedAt(sample), event.voice.midi, channel, frame)
        : this.pool.ringingOn(event.string, channel, frame);
    if (before === null) return null;
    this.renderSlot(before, sample);
    before.releaseInSamples = Infinity;
    before.isReleased = true;
    before.releasedFrame = frame;
    return before;
  }

  /** A string that is struck again ends whatever rang on it, on any line, heard or not. */
  private dampString(event: SoundEvent, sample: number): void {
    for (let index = 0; index < this.pool.slots.length; index += 1) {
      const slot = this.pool.slots[index] as VoiceSlot;
      if (!slot.voice.isActive || slot.isReleased || slot.string !== event.string) continue;
      if (slot.startedFrame === this.report.frame + sample) continue;
      slot.releaseInSamples = Math.min(slot.releaseInSamples, sample);
      slot.releaseTailSeconds = stringTailSeconds;
    }
  }

  click({ accent }: Click, sample: number): void {
    const slot = this.pool.strike(accent === 'bar' ? 'barClick' : 'beatClick', accent === 'part' ? 0.35 : 0.8, 1, 1);
    slot.channel = this.clicks;
    slot.startSample = sample;
  }

  stageBegan(stage: Stage, sample: number): void {
    this.report.stageKind = stage.kind;
    this.report.pass = stage.pass;
    this.report.stageNumber += 1;
    this.report.stageStartFrame = this.report.frame + sample;
  }

  ended(): void {
    this.report.isPlaying = false;
  }

  /**
   * Renders the next block. `gains`, where given, takes what each sample was multiplied with on its way from the buses,
   * which is `latencySamples` late. **Units** 128 samples.
   */
  process(left: Float32Array, right: Float32Array, gains: Float32Array | null = null): void {
    this.blockStartElapsed = this.transport.elapsedSeconds;
    for (let index = 0; index < this.channels.length; index += 1) (this.channels[index] as Channel).begin();
    this.transport.advance(blockSamples);
    this.auditions.advance(blockSamples, this.startAudition);
    this.drone.addTo(this.auditioned);
    this.report.positionSeconds = this.transport.positionSeconds;
    this.report.stageEndSeconds = this.transport.stage?.endSeconds ?? 0;
    for (let index = 0; index < this.buses.length; index += 1) (this.buses[index] as Bus).begin();
    for (let index = 0; index < this.pool.slots.length; index += 1)
      this.finishSlot(this.pool.slots[index] as VoiceSlot);
    this.mixBuses(left, right);
    this.applyVolume(left, right);
    this.limiter.process(left, right, blockSamples, gains);
    if (gains !== null)
      for (let index = 0; index < blockSamples; index += 1) gains[index] = (gains[index] as number) * this.volume.value;
    this.report.frame += blockSamples;
  }

  private mixBuses(left: Float32Array, right: Float32Array): void {
    for (let index = 0; index < this.channels.length; index += 1) {
      const channel = this.channels[index] as Channel;
      const bus = this.channelBuses[index] as Bus;
      channel.finish(bus.left, bus.right, bus.send, bus.ring);
      if (!channel.isAtRest) bus.keepAwake();
    }
    left.fill(0);
    right.fill(0);
    for (let index = 0; index < this.buses.length; index += 1) {
      const bus = this.buses[index] as Bus;
      bus.finish();
      bus.addTo(left, right);
    }
  }

  private finishSlot(slot: VoiceSlot): void {
    this.renderSlot(slot, blockSamples);
    slot.releaseInSamples -= blockSamples;
    slot.startSample = 0;
  }

  /** Renders what is left of a slot's block up to sample `to`. */
  private renderSlot(slot: VoiceSlot, to: number): void {
    const { channel, voice } = slot;
    const from = slot.startSample;
    if (!voice.isActive || channel === null || to <= from) return;
    const rate = channel === this.auditioned ? 1 : this.report.rate;
    const until = Math.max(from, this.releaseSample(slot));
    if (until < to) {
      channel.add(voice, from, until, rate);
      slot.isReleased = true;
      slot.releasedFrame = this.report.frame + until;
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
    const wait = (slot.releaseAtElapsed - this.blockStartElapsed) / (this.report.rate / this.sampleRate);
    return Math.max(0, Math.min(slot.releaseInSamples, Math.ceil(wait)));
  }

  private applyVolume(left: Float32Array, right: Float32Array): void {
    for (let index = 0; index < blockSamples; index += 1) {
      const gain = this.volume.next(this.volumeSmoothing);
      left[index] = (left[index] as number) * gain;
      right[index] = (right[index] as number) * gain;
    }
    this.volume.settle();
  }
}
