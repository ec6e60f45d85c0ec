import type { Performance } from '../perform/performance.ts';
import { samePlaceIn } from '../perform/same-place.ts';
import type { Programme } from './programme.ts';
import { planStages, type SecondsRange, type Stage, type StagePlan } from './stages.ts';
import type { Transport } from './transport.ts';

/** Where playing begins. **Units** seconds at the written tempo, from the performance's start. */
interface PlayFrom {
  readonly seconds: number;
  /** The pass of a programme to go on in; 0 begins it. */
  readonly pass: number;
  readonly countInBars: number;
}

function later(stage: Stage, bySeconds: number): Stage {
  return {
    ...stage,
    startSeconds: stage.startSeconds + bySeconds,
    endSeconds: stage.endSeconds + bySeconds,
    clicks: stage.clicks.map((click) => ({ ...click, atSeconds: click.atSeconds + bySeconds })),
  };
}

const within = (stage: Stage, seconds: number): number =>
  Math.min(Math.max(seconds, stage.startSeconds), stage.endSeconds);

/** What is played: the music, the stretch that repeats and the passes. The place is kept while they change. */
export class Playing {
  performance: Performance | null = null;
  private loop: SecondsRange | null = null;
  private programme: Programme | null = null;
  private readonly transport: Transport;

  constructor(transport: Transport) {
    this.transport = transport;
  }

  /** Takes other music and its stretch; what is being played goes on at the same written place, else ends. */
  load(performance: Performance, loop: SecondsRange | null): void {
    const before = this.performance;
    this.performance = performance;
    this.loop = loop;
    this.replan((seconds) => (before === null ? seconds : samePlaceIn(performance.timeMap, before.timeMap, seconds)));
  }

  /** The stretch that repeats; null for none. While playing, the position stays if it lies within. */
  setLoop(loop: SecondsRange | null): void {
    this.loop = loop;
    this.replan((seconds) => seconds);
  }

  /** What the passes do; it holds from the next beginning. */
  setProgramme(programme: Programme | null): void {
    this.programme = programme;
  }

  begin({ seconds, pass, countInBars }: PlayFrom): void {
    if (this.performance === null) return;
    const plan = this.plan(seconds, countInBars);
    const at = this.programme === null || pass <= 0 ? -1 : plan.stages.findIndex((stage) => stage.pass === pass);
    const stage = plan.stages[at];
    if (stage === undefined) this.transport.start(plan, this.performance.events);
    else this.transport.start(plan, this.performance.events, { stage: at, seconds: within(stage, seconds) });
  }

  private plan(fromSeconds: number, countInBars: number): StagePlan {
    const { performance, loop, programme } = this;
    return performance === null
      ? { stages: [], repeatFrom: null }
      : planStages({ performance, loop, programme, fromSeconds, countInBars });
  }

  private replan(placeOf: (seconds: number) => number): void {
    const { stage, positionSeconds, isRunning } = this.transport;
    if (this.performance === null || !isRunning || stage === undefined) return;
    if (stage.kind === 'countIn' && stage.pass < 0) this.replanCountIn(stage, placeOf(stage.endSeconds));
    else if (this.programme === null) this.replace(this.plan(placeOf(positionSeconds), 0), 0, placeOf(positionSeconds));
    else {
      const plan = this.plan(0, 0);
      const index = plan.stages.findIndex((each) => each.pass === stage.pass);
      this.replace(plan, Math.max(0, index), placeOf(positionSeconds));
    }
  }

  /** The count-in goes on, and leads to where the music now begins. */
  private replanCountIn(stage: Stage, goalSeconds: number): void {
    const { stages, repeatFrom } = this.plan(goalSeconds, 0);
    const shift = (stages[0]?.startSeconds ?? stage.endSeconds) - stage.endSeconds;
    const plan = {
      stages: stages.length === 0 ? [] : [later(stage, shift), ...stages],
      repeatFrom: repeatFrom === null ? null : repeatFrom + 1,
    };
    this.replace(plan, 0, this.transport.positionSeconds + shift);
  }

  private replace(plan: StagePlan, index: number, seconds: number): void {
    const stage = plan.stages[index];
    if (stage === undefined) this.transport.stop();
    else
      this.transport.replace(plan, this.performance?.events ?? [], { stage: index, seconds: within(stage, seconds) });
  }
}
