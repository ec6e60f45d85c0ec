import type { Click, SoundEvent } from '../perform/performance.ts';
import { silentClick, type ClickSetting } from './clicks.ts';
import type { Stage, StagePlan } from './stages.ts';

/** What the transport sets off, each at a sample of the present block. */
export interface TransportTarget {
  startEvent(index: number, stage: Stage, sample: number): void;
  click(click: Click, sample: number): void;
  stageBegan(stage: Stage, sample: number): void;
  ended(sample: number): void;
}

/** A place in a plan: a stage by its index, and a position within it. */
interface StagePlace {
  readonly stage: number;
  readonly seconds: number;
}

const near = 1e-7;
const noStages: StagePlan = { stages: [], repeatFrom: null };

/**
 * Runs through stages sample by sample. An event starts at the first sample that is not before it; what a seam overshoots
 * is carried into the next stage, so a loop's period is exact on average and never off by more than one sample.
 */
export class Transport {
  isRunning = false;
  /** **Units** seconds at the written tempo, from the performance's start. */
  positionSeconds = 0;
  /** Played time at the written tempo since the engine began; it never runs back. */
  elapsedSeconds = 0;
  private readonly sampleRate: number;
  private readonly target: TransportTarget;
  private events: readonly SoundEvent[] = [];
  private plan: StagePlan = noStages;
  private stageIndex = 0;
  private eventIndex = 0;
  private clickIndex = 0;
  private stepSeconds: number;
  clickSetting: ClickSetting = silentClick;

  constructor(sampleRate: number, target: TransportTarget) {
    this.sampleRate = sampleRate;
    this.target = target;
    this.stepSeconds = 1 / sampleRate;
  }

  get stage(): Stage | undefined {
    return this.plan.stages[this.stageIndex];
  }

  /** The tempo as a share of the written one. */
  setRate(rate: number): void {
    this.stepSeconds = rate / this.sampleRate;
  }

  /** Begins a plan, at its first stage unless told where. */
  start(plan: StagePlan, events: readonly SoundEvent[], place: StagePlace | null = null): void {
    this.plan = plan;
    this.events = events;
    this.isRunning = plan.stages.length > 0;
    this.enter(place?.stage ?? 0, 0, 0);
    if (place !== null) this.seek(place);
  }

  /** Puts another plan in place while running. */
  replace(plan: StagePlan, events: readonly SoundEvent[], place: StagePlace): void {
    this.plan = plan;
    this.events = events;
    this.seek(place);
  }

  private seek({ stage: stageIndex, seconds: positionSeconds }: StagePlace): void {
    const { events } = this;
    const stage = this.plan.stages[stageIndex];
    if (stage === undefined) return;
    this.stageIndex = stageIndex;
    this.positionSeconds = positionSeconds;
    this.eventIndex = stage.firstEvent;
    while (
      this.eventIndex < stage.eventEnd &&
      (events[this.eventIndex] as SoundEvent).onsetSeconds < positionSeconds - near
    )
      this.eventIndex += 1;
    this.clickIndex = 0;
    while ((stage.clicks[this.clickIndex]?.atSeconds ?? Infinity) < positionSeconds - near) this.clickIndex += 1;
  }

  stop(): void {
    this.isRunning = false;
  }

  /** Moves on by a block, setting off whatever is due in it. */
  advance(samples: number): void {
    let at = 0;
    while (this.isRunning && at < samples) at = this.advanceWithinStage(at, samples);
    this.elapsedSeconds += samples * this.stepSeconds;
  }

  private advanceWithinStage(at: number, samples: number): number {
    const stage = this.stage as Stage;
    const untilEnd = Math.max(0, Math.ceil((stage.endSeconds - this.positionSeconds) / this.stepSeconds - near));
    const span = Math.min(samples - at, untilEnd);
    this.dispatch(stage, at, span);
    this.positionSeconds += span * this.stepSeconds;
    if (span === untilEnd) this.leave(stage, at + span);
    return at + span;
  }

  private samplesUntil(seconds: number): number {
    return Math.max(0, Math.ceil((seconds - this.positionSeconds) / this.stepSeconds - near));
  }

  private dispatch(stage: Stage, at: number, span: number): void {
    while (this.eventIndex < stage.eventEnd) {
      const wait = this.samplesUntil((this.events[this.eventIndex] as SoundEvent).onsetSeconds);
      if (wait >= span) break;
      this.target.startEvent(this.eventIndex, stage, at + wait);
      this.eventIndex += 1;
    }
    while (this.clickIndex < stage.clicks.length) {
      const click = stage.clicks[this.clickIndex] as Click;
      const wait = this.samplesUntil(click.atSeconds);
      if (wait >= span) break;
      if (this.isClickDue(stage, click)) this.target.click(click, at + wait);
      this.clickIndex += 1;
    }
  }

  private isClickDue(stage: Stage, click: Click): boolean {
    const { isOn, subdivision } = this.clickSetting;
    return isOn ? click.subdivisions.includes(subdivision) : stage.clicking === 'always' && click.accent !== 'part';
  }

  private leave(stage: Stage, sample: number): void {
    const over = Math.max(0, this.positionSeconds - stage.endSeconds);
    const next = this.stageIndex + 1 < this.plan.stages.length ? this.stageIndex + 1 : this.plan.repeatFrom;
    if (next === null) {
      this.isRunning = false;
      this.positionSeconds = stage.endSeconds;
      this.target.ended(sample);
      return;
    }
    this.enter(next, over, sample);
  }

  private enter(index: number, over: number, sample: number): void {
    const stage = this.plan.stages[index];
    if (stage === undefined) return;
    this.stageIndex = index;
    this.positionSeconds = stage.startSeconds + over;
    this.eventIndex = stage.firstEvent;
    this.clickIndex = 0;
    this.target.stageBegan(stage, sample);
  }
}
