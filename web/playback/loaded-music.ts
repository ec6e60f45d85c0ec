import {
  engineMixOf,
  momentsAtTicks,
  secondsAtTicks,
  secondsOfRange,
  type EngineMix,
  type LinePowers,
  type Performance,
  type SecondsRange,
} from '../../music/index.ts';
import { LoudnessMeter } from './loudness-meter.ts';
import type { EngineCommand } from './messages.ts';
import type { PlayerSettings } from './player-snapshot.ts';

/** The music that is loaded, and what the settings come to in it. */
export class LoadedMusic {
  performance: Performance | null = null;
  /** Counts what has been loaded. */
  loadNumber = 0;
  private powers: LinePowers | null = null;
  private readonly meter: LoudnessMeter;
  private readonly settings: () => PlayerSettings;

  /** `mixChanged` is called once the lines have been measured, by which loudness is evened out. */
  constructor(settings: () => PlayerSettings, mixChanged: () => void) {
    this.settings = settings;
    this.meter = new LoudnessMeter((powers) => {
      this.powers = powers;
      mixChanged();
    });
  }

  load(performance: Performance): void {
    this.performance = performance;
    this.loadNumber += 1;
    this.powers = null;
  }

  /** The command that loads it; null where there is nothing yet. */
  loading(): EngineCommand | null {
    const { performance, loadNumber } = this;
    return performance === null ? null : { type: 'load', loadNumber, performance, loop: this.loopSeconds() };
  }

  /** The stretch that repeats; null where none does. */
  loopSeconds(): SecondsRange | null {
    const { loop } = this.settings();
    if (loop === null || this.performance === null) return null;
    if (loop === 'all') return this.allSeconds();
    return secondsOfRange(this.performance.timeMap, loop);
  }

  /** What is played: the stretch that repeats, else all of it. */
  playedSeconds(): SecondsRange {
    return this.loopSeconds() ?? this.allSeconds();
  }

  private allSeconds(): SecondsRange {
    return { startSeconds: 0, endSeconds: this.performance?.lengthSeconds ?? 0 };
  }

  /** When written ticks are played: within the stretch that repeats where it has them, else the first time. */
  secondsOf(ticks: number): number {
    if (this.performance === null) return 0;
    const { timeMap } = this.performance;
    const loop = this.loopSeconds();
    const isWithin = (seconds: number): boolean =>
      loop !== null && seconds >= loop.startSeconds && seconds < loop.endSeconds;
    return momentsAtTicks(timeMap, ticks).find(isWithin) ?? secondsAtTicks(timeMap, ticks);
  }

  /** The engine's mix; where a line is to come forward and nobody has measured the lines, that begins. */
  mix(): EngineMix {
    const { settings, forward } = this.settings();
    if (forward !== null && this.powers === null && this.performance !== null) this.meter.measure(this.performance);
    return engineMixOf(this.performance?.lines ?? [], settings, forward, this.powers);
  }

  close(): void {
    this.meter.close();
  }
}
