import type { Page } from 'playwright-core';
import type { LineId, StereoSound } from '../../music/index.ts';
import { leastSquares } from './least-squares.ts';

/** One beginning of a stage of the transport, as the worklet reported it. */
export interface CaughtStage {
  readonly kind: string;
  readonly pass: number;
  /** The engine's sample at which it began. */
  readonly startFrame: number;
}

/** What left the sound engine of a page since it was opened, to the sample. */
export interface CaughtSound extends StereoSound {
  readonly sampleRate: number;
  /** The engine's sample that the sound begins with. */
  readonly firstFrame: number;
  readonly stages: readonly CaughtStage[];
  /** One for each report while something played, in order. */
  readonly places: readonly CaughtPlace[];
}

/** Where the transport was at a sample of the engine, and how fast it goes on from there. */
export interface CaughtPlace {
  readonly frame: number;
  readonly positionSeconds: number;
  readonly rate: number;
}

interface Kept {
  chunks: { firstFrame: number; sampleRate: number; left: Float32Array; right: Float32Array }[];
  stages: CaughtStage[];
  places: CaughtPlace[];
  contexts: BaseAudioContext[];
}

/**
 * Listens to whatever the pages of this session play: every audio worklet node they make is asked, by the product's own
 * `capture` command, to hand on its samples. Call it before the page is opened.
 */
export async function catchSound(page: Page): Promise<void> {
  await page.addInitScript(() => {
    const kept: Kept = { chunks: [], stages: [], places: [], contexts: [] };
    Object.assign(window, { caughtSound: kept });
    const Original = window.AudioWorkletNode;
    let lastStage = '';
    window.AudioWorkletNode = class extends Original {
      constructor(context: BaseAudioContext, name: string, options?: AudioWorkletNodeOptions) {
        super(context, name, options);
        if (context instanceof OfflineAudioContext) return;
        kept.contexts.push(context);
        this.port.addEventListener('message', ({ data }: MessageEvent<{ type: string }>) => {
          if (data.type === 'captured') kept.chunks.push(data as unknown as Kept['chunks'][number]);
          if (data.type !== 'report') return;
          const { report } = data as unknown as {
            report: CaughtPlace & { isPlaying: boolean; stageKind: string; pass: number; stageStartFrame: number };
          };
          const { frame, positionSeconds, rate } = report;
          if (report.isPlaying) kept.places.push({ frame, positionSeconds, rate });
          const stage = `${report.stageKind} ${report.stageStartFrame}`;
          if (report.isPlaying && stage !== lastStage)
            kept.stages.push({ kind: report.stageKind, pass: report.pass, startFrame: report.stageStartFrame });
          if (report.isPlaying) lastStage = stage;
        });
        this.port.postMessage({ type: 'capture', isOn: true });
      }
    };
  });
}

/** Everything caught so far. **Errors** throws where a piece is missing or nothing was played. */
export async function caughtSound(page: Page): Promise<CaughtSound> {
  const caught = await page.evaluate(() => {
    const { chunks, stages, places } = (window as unknown as { caughtSound: Kept }).caughtSound;
    const text = (samples: Float32Array): string => {
      let binary = '';
      for (const byte of new Uint8Array(samples.buffer, samples.byteOffset, samples.byteLength))
        binary += String.fromCharCode(byte);
      return btoa(binary);
    };
    return {
      stages,
      places,
      chunks: chunks.map((chunk) => ({
        ...chunk,
        count: chunk.left.length,
        left: text(chunk.left),
        right: text(chunk.right),
      })),
    };
  });
  const [first] = caught.chunks;
  if (first === undefined) throw new Error('No sound was caught');
  for (const [index, chunk] of caught.chunks.entries()) {
    if (chunk.firstFrame !== first.firstFrame + index * first.count) throw new Error('A piece of the sound is missing');
  }
  const joined = (side: 'left' | 'right'): Float32Array => {
    const bytes = Buffer.concat(caught.chunks.map((chunk) => Buffer.from(chunk[side], 'base64')));
    return new Float32Array(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength));
  };
  return {
    sampleRate: first.sampleRate,
    firstFrame: first.firstFrame,
    stages: caught.stages,
    places: caught.places,
    left: joined('left'),
    right: joined('right'),
  };
}

/** Takes the sound device away from a page's latest player, as a system does that loses it. */
export const loseDevice = (page: Page): Promise<void> =>
  page.evaluate(async () => {
    const context = (window as unknown as { caughtSound: Kept }).caughtSound.contexts.at(-1);
    if (context instanceof AudioContext) await context.close();
  });

/** Where the transport of a page was at each report so far, and how many devices it has opened. */
export const placesSoFar = (page: Page): Promise<{ places: readonly CaughtPlace[]; deviceCount: number }> =>
  page.evaluate(() => {
    const { places, contexts } = (window as unknown as { caughtSound: Kept }).caughtSound;
    return { places, deviceCount: contexts.length };
  });

/** The part of a caught sound that begins with a stage, as long as `sampleCount`. */
export function soundFrom(caught: CaughtSound, stage: CaughtStage, sampleCount: number): StereoSound {
  const at = stage.startFrame - caught.firstFrame;
  return { left: caught.left.subarray(at, at + sampleCount), right: caught.right.subarray(at, at + sampleCount) };
}

/** How long after the stage's start the first sound comes. **Units** seconds; Infinity where none comes. */
export function firstSoundAfter(caught: CaughtSound, stage: CaughtStage, threshold = 1e-4): number {
  const at = stage.startFrame - caught.firstFrame;
  const index = caught.left.subarray(at).findIndex((value) => Math.abs(value) > threshold);
  return index < 0 ? Infinity : index / caught.sampleRate;
}

/**
 * The level of each line in a heard sound, fitted by least squares as a mix of the lines' own renders; all begin together.
 * **Units** decibels, 0 for a line as it was rendered.
 */
export function levelsOfLines(
  heard: StereoSound,
  renders: ReadonlyMap<LineId, StereoSound>,
): ReadonlyMap<LineId, number> {
  const count = Math.min(heard.left.length, ...[...renders.values()].map(({ left }) => left.length));
  const weights = leastSquares(
    [...renders.values()].map(({ left }) => left.subarray(0, count)),
    heard.left.subarray(0, count),
  );
  return new Map(
    [...renders.keys()].map((line, index) => [line, 20 * Math.log10(Math.max(1e-12, Math.abs(weights[index]!)))]),
  );
}
