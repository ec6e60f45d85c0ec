import type { LineId } from '../basis/ids.ts';
import type { Performance } from '../perform/performance.ts';
import { blockSamples, plainMix, type ChannelMix } from './channel.ts';
import type { EngineMix } from './desk.ts';
import { SoundEngine } from './engine.ts';

/** Two sides of rendered sound, between −1 and 1. */
export interface StereoSound {
  readonly left: Float32Array;
  readonly right: Float32Array;
}

/** How to render. */
export interface RenderOptions {
  readonly sampleRate: number;
  /** The tempo as a share of the written one; 1 by default. */
  readonly rate?: number;
  /** How long the sound goes on after the end, for tails. **Units** seconds; 2 by default. */
  readonly tailSeconds?: number;
  /** Levels and places; plain by default. Solo and mute are decided by who is rendered. */
  readonly mix?: ReadonlyMap<LineId, ChannelMix>;
}

/** Everything that is audible in a mix, played once from the start. */
export function renderPerformance(performance: Performance, mix: EngineMix, options: RenderOptions): StereoSound {
  const engine = new SoundEngine(options.sampleRate);
  engine.setMix(mix);
  engine.load(performance);
  engine.setRate(options.rate ?? 1);
  engine.play(0, 0);
  const seconds = performance.lengthSeconds / (options.rate ?? 1) + (options.tailSeconds ?? 2);
  const blockCount = Math.ceil((seconds * options.sampleRate + engine.latencySamples) / blockSamples);
  const left = new Float32Array(blockCount * blockSamples);
  const right = new Float32Array(blockCount * blockSamples);
  for (let block = 0; block < blockCount; block += 1) {
    const at = block * blockSamples;
    engine.process(left.subarray(at, at + blockSamples), right.subarray(at, at + blockSamples));
  }
  return { left, right };
}

/** The mix in which only some lines are heard. */
export function mixOfOnly(
  performance: Performance,
  heard: readonly LineId[],
  isLooseHeard: boolean,
  mix?: ReadonlyMap<LineId, ChannelMix>,
): EngineMix {
  return {
    lines: performance.lines.map((line) => ({
      line,
      mix: { ...(mix?.get(line) ?? plainMix), isAudible: heard.includes(line) },
    })),
    loose: { ...plainMix, isAudible: isLooseHeard },
  };
}

/**
 * Each line alone, as it sounds in the mix: same room, same damping of strings. All begin together, and below the
 * limiter's ceiling they sum to the mix. `lines` names which; every line of the performance by default.
 */
export function renderLines(
  performance: Performance,
  options: RenderOptions & { readonly lines?: readonly LineId[] },
): ReadonlyMap<LineId, StereoSound> {
  const lines = options.lines ?? performance.lines;
  return new Map(
    lines.map((line) => [
      line,
      renderPerformance(performance, mixOfOnly(performance, [line], false, options.mix), options),
    ]),
  );
}
