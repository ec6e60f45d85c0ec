import { samePlaceIn, ticksAtSeconds, type Performance } from '../../music/index.ts';
import type { TimedReport } from './messages.ts';

/** Where the sounding moment is, for things that move with it without rendering anything. */
export interface PositionSource {
  /** Calls the listener once a frame while the position moves, and once when it has come to rest; returns how to end that. */
  subscribe(listener: (ticks: number) => void): () => void;
  /** The written ticks that are being heard; fractional. */
  getTicks(): number;
}

/** Follows the engine's reports between them by the device's own clock; one animation-frame loop for all listeners. */
export class PlayingPosition implements PositionSource {
  private readonly listeners = new Set<(ticks: number) => void>();
  private readonly heardSeconds: () => number | null;
  private performance: Performance | null = null;
  private last: TimedReport | null = null;
  private beforeSeam: TimedReport | null = null;
  private restSeconds = 0;
  private frame: number | null = null;

  constructor(heardSeconds: () => number | null) {
    this.heardSeconds = heardSeconds;
  }

  /** Takes other music; the position stays at the same written place. */
  setPerformance(performance: Performance): void {
    const before = this.performance;
    const seconds = this.getSeconds();
    const place = before === null ? seconds : samePlaceIn(performance.timeMap, before.timeMap, seconds);
    this.performance = performance;
    if (place !== seconds) this.last = this.beforeSeam = null;
    if (this.last === null) this.restSeconds = place;
    this.tell();
  }

  /** Puts the position somewhere while nothing plays. */
  rest(seconds: number): void {
    this.last = this.beforeSeam = null;
    this.restSeconds = seconds;
    this.tell();
  }

  follow(report: TimedReport): void {
    if (report.report.stageNumber !== this.last?.report.stageNumber) this.beforeSeam = this.last;
    this.last = report;
    if (!report.report.isPlaying) this.restSeconds = report.report.positionSeconds;
    this.wake();
  }

  /** **Units** seconds at the written tempo. */
  getSeconds(): number {
    const heard = this.heardSeconds();
    if (this.last === null || !this.last.report.isPlaying || heard === null) return this.restSeconds;
    const isStillBefore = this.beforeSeam?.report.isPlaying === true && heard < this.last.stageContextSeconds;
    return secondsHeard(isStillBefore && this.beforeSeam !== null ? this.beforeSeam : this.last, heard);
  }

  getTicks(): number {
    return this.performance === null ? 0 : ticksAtSeconds(this.performance.timeMap, this.getSeconds());
  }

  subscribe(listener: (ticks: number) => void): () => void {
    this.listeners.add(listener);
    this.wake();
    return () => {
      this.listeners.delete(listener);
      if (this.listeners.size === 0) this.sleep();
    };
  }

  private wake(): void {
    if (this.frame !== null || this.listeners.size === 0) return;
    this.frame = requestAnimationFrame(() => this.step());
  }

  private step(): void {
    this.frame = null;
    this.tell();
    if (this.last?.report.isPlaying === true) this.wake();
  }

  private tell(): void {
    const ticks = this.getTicks();
    for (const listener of this.listeners) listener(ticks);
  }

  private sleep(): void {
    if (this.frame !== null) cancelAnimationFrame(this.frame);
    this.frame = null;
  }
}

/** What sounds at `heard` by one report: it stands still in a count-in and waits at the end of its stage. */
function secondsHeard(timed: TimedReport, heard: number): number {
  const { positionSeconds, stageEndSeconds, stageKind, rate } = timed.report;
  if (stageKind === 'countIn') return stageEndSeconds;
  return Math.min(stageEndSeconds, positionSeconds + (heard - timed.contextSeconds) * rate);
}
