import type {
  Audition,
  ClickSetting,
  EngineMix,
  EngineReport,
  Performance,
  Programme,
  SecondsRange,
} from '../../music/index.ts';

/** What the player tells the worklet. */
export type EngineCommand =
  | {
      readonly type: 'load';
      readonly loadNumber: number;
      readonly performance: Performance;
      readonly loop: SecondsRange | null;
    }
  | { readonly type: 'mix'; readonly mix: EngineMix }
  | { readonly type: 'volume'; readonly levelDb: number }
  | { readonly type: 'rate'; readonly rate: number }
  | { readonly type: 'click'; readonly setting: ClickSetting }
  | { readonly type: 'loop'; readonly loop: SecondsRange | null }
  | { readonly type: 'programme'; readonly programme: Programme | null }
  | {
      readonly type: 'play';
      readonly playNumber: number;
      readonly fromSeconds: number;
      /** The pass of the programme to begin in. */
      readonly pass: number;
      readonly countInBars: number;
    }
  /** What sounds next begins softly. */
  | { readonly type: 'rise' }
  | { readonly type: 'stop' }
  | { readonly type: 'audition'; readonly sounds: readonly Audition[] }
  | { readonly type: 'drone'; readonly midi: number | null }
  | { readonly type: 'capture'; readonly isOn: boolean };

/** Sound exactly as it leaves the worklet. `firstFrame` counts the engine's samples from its first, as `EngineReport.frame` does. */
export interface CapturedSound {
  readonly type: 'captured';
  readonly firstFrame: number;
  readonly sampleRate: number;
  readonly left: Float32Array;
  readonly right: Float32Array;
}

/** A report with its place on the device's clock: when it was true, and when its stage began. **Units** seconds. */
export interface TimedReport {
  readonly type: 'report';
  /** The `play` command that the report belongs to; 0 before any. */
  readonly playNumber: number;
  /** The `load` command whose music the report's seconds belong to; 0 before any. */
  readonly loadNumber: number;
  /** How often the device's clock has leapt past blocks that were never asked for. */
  readonly gaps: number;
  readonly report: EngineReport;
  readonly contextSeconds: number;
  readonly stageContextSeconds: number;
}

/** What the worklet tells the player. */
export type EngineMessage = TimedReport | CapturedSound;

/** What the worklet is made with: commands that hold before its first sample. */
export interface EngineOptions {
  readonly commands: readonly EngineCommand[];
}

/** The name that the worklet registers under. */
export const processorName = 'heddle-sound';
