import type { LineId } from '../basis/ids.ts';
import type { Click, Performance } from '../perform/performance.ts';
import { Auditions, type Audition } from './auditions.ts';
import type { Bus } from './bus.ts';
import { blockSamples, type Channel } from './channel.ts';
import type { ClickSetting } from './clicks.ts';
import { Desk, type EngineMix } from './desk.ts';
import { Drone } from './drone.ts';
import { Glide } from './glide.ts';
import { smoothingOf, volumeGainOf } from './level.ts';
import { Limiter } from './limiter.ts';
import { seedOf } from './noise.ts';
import { Playing } from './playing.ts';
import type { Programme } from './programme.ts';
import { Sounding } from './sounding.ts';
import type { SecondsRange, Stage } from './stages.ts';
import { Transport, type TransportTarget } from './transport.ts';

const auditionSeconds = 1.6;
const volumeSmoothSeconds = 0.01;

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
  private readonly sounding: Sounding;
  private readonly desk: Desk;
  private readonly limiter: Limiter;
  private readonly transport: Transport;
  private readonly playing: Playing;
  private readonly auditions: Auditions;
  private readonly drone: Drone;
  private eventChannels: Channel[] = [];
  private eventGainPlaces: number[] = [];
  private seeds: number[] = [];
  private readonly volume = new Glide(volumeGainOf(0));
  private readonly volumeSmoothing: number;

  /** `separate` gives every channel a bus and a room of its own, so that each can be taken off before the whole is limited. */
  constructor(sampleRate: number, channels: 'together' | 'separate' = 'together') {
    this.desk = new Desk(sampleRate, channels);
    this.sounding = new Sounding(sampleRate);
    this.limiter = new Limiter(sampleRate);
    this.latencySamples = this.limiter.latencySamples;
    this.transport = new Transport(sampleRate, this);
    this.playing = new Playing(this.transport);
    this.auditions = new Auditions(sampleRate);
    this.drone = new Drone(sampleRate);
    this.volumeSmoothing = smoothingOf(volumeSmoothSeconds, sampleRate);
  }

  /** Takes a performance and the stretch of it that repeats; what is being played goes on at the same written place. */
  load(performance: Performance, loop: SecondsRange | null = null): void {
    this.desk.addLines(performance.lines);
    const places = new Map(performance.lines.map((line, index) => [line, index]));
    this.eventChannels = performance.events.map(({ line }) => this.desk.channelOf(line));
    this.eventGainPlaces = performance.events.map((event) =>
      event.line === null ? performance.lines.length : (places.get(event.line) ?? performance.lines.length),
    );
    this.seeds = performance.events.map((event) => seedOf(event.note, 0));
    this.desk.tune(performance.tuning);
    this.playing.load(performance, loop);
    this.endIfNothingIsLeft();
  }

  private endIfNothingIsLeft(): void {
    if (this.report.isPlaying && !this.transport.isRunning) this.stop();
  }

  /** What a line, the notes on no line or the click give to the whole, block by block; of use where channels are separate. */
  busOf(source: LineId | 'loose' | 'click'): Bus | undefined {
    return this.desk.busOf(source);
  }

  /** Sets levels, places, tones and who is heard; smooth while sounding. */
  setMix(mix: EngineMix): void {
    this.desk.setMix(mix);
  }

  /** The level of everything together. */
  setVolume(levelDb: number): void {
    this.volume.goal = volumeGainOf(levelDb);
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
    this.sounding.stop();
    this.desk.damp(false);
    this.report.stageNumber = 0;
    this.playing.begin({ seconds: fromSeconds, pass, countInBars });
    this.report.isPlaying = this.transport.isRunning;
  }

  /** Stops, and lets what sounds die away quickly. */
  stop(): void {
    this.transport.stop();
    this.auditions.clear();
    this.report.isPlaying = false;
    this.sounding.stop();
    this.desk.damp(true);
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

  private readonly startAudition = (audition: Audition, sample: number): void =>
    this.sounding.startAudition(audition, this.desk.auditioned, sample);

  startEvent(index: number, stage: Stage, sample: number): void {
    const event = this.playing.performance?.events[index];
    const channel = this.eventChannels[index];
    if (event === undefined || channel === undefined) return;
    const gain = stage.gains === null ? 1 : (stage.gains[this.eventGainPlaces[index] as number] ?? 0);
    this.sounding.startEvent(event, { channel, gain, seed: this.seeds[index] as number, sample });
  }

  click({ accent }: Click, sample: number): void {
    const struck = accent === 'bar' ? 'barClick' : 'beatClick';
    this.sounding.strike(struck, accent === 'part' ? 0.35 : 0.8, this.desk.clicks, sample);
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

  /** Renders the next block. **Units** 128 samples. */
  process(left: Float32Array, right: Float32Array): void {
    this.processUnlimited(left, right);
    this.applyVolume(left, right);
    this.limiter.process(left, right, blockSamples);
  }

  /** Renders the next block without volume and limiter, which do not see it then. */
  processUnlimited(left: Float32Array, right: Float32Array): void {
    const { report, desk, transport } = this;
    this.sounding.beginBlock(report.frame, transport.elapsedSeconds, report.rate);
    desk.begin();
    transport.advance(blockSamples);
    this.auditions.advance(blockSamples, this.startAudition);
    this.drone.addTo(desk.auditioned);
    report.positionSeconds = transport.positionSeconds;
    report.stageEndSeconds = transport.stage?.endSeconds ?? 0;
    this.sounding.finishBlock(desk.auditioned);
    desk.finish(left, right);
    report.frame += blockSamples;
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
