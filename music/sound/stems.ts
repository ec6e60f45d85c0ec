import { countInBefore } from '../perform/count-in.ts';
import type { LineId } from '../basis/ids.ts';
import type { Performance } from '../perform/performance.ts';
import type { Bus } from './bus.ts';
import { blockSamples } from './channel.ts';
import type { ClickSetting } from './clicks.ts';
import type { EngineMix } from './desk.ts';
import { SoundEngine } from './engine.ts';
import type { StereoSound } from './render-lines.ts';

/** What a stem holds: a line, the notes on no line, or the click. */
export type StemSource = LineId | 'loose' | 'click';

/** What is rendered, and how. */
export interface StemsOrder {
  readonly performance: Performance;
  /** Levels, places, tones and who is heard. */
  readonly mix: EngineMix;
  readonly sampleRate: number;
  /** The tempo as a share of the written one, 0.25 to 1.5. */
  readonly rate: number;
  readonly countInBars: 0 | 1 | 2;
  /** The click after the count-in. */
  readonly click: ClickSetting;
  /** What is added to everything before it is limited. **Units** decibels. */
  readonly gainDb: number;
}

/** A piece of the mix and of every stem; the samples are valid until the next piece is asked for. */
export interface StemsPiece {
  readonly mix: StereoSound;
  readonly stems: ReadonlyMap<StemSource, StereoSound>;
}

/** A rendering that is ready to run. */
export interface StemsRendering {
  readonly sources: readonly StemSource[];
  readonly lengthFrames: number;
  /** The pieces one after the other; together as long as `lengthFrames`. */
  readonly pieces: () => Generator<StemsPiece, void>;
}

const tailSeconds = 2;
const pieceSamples = 64 * blockSamples;

/** The sources that can be heard in a mix. */
function audibleSources({ performance, mix, countInBars, click }: StemsOrder): readonly StemSource[] {
  const isAudible = (line: LineId): boolean => mix.lines.find((each) => each.line === line)?.mix.isAudible ?? true;
  const hasLoose = mix.loose.isAudible && performance.events.some(({ line }) => line === null);
  return [
    ...performance.lines.filter(isAudible),
    ...(hasLoose ? (['loose'] as const) : []),
    ...(click.isOn || countInBars > 0 ? (['click'] as const) : []),
  ];
}

/** How long a rendering is, with its count-in before and its tail after. **Units** seconds. */
export function renderedSeconds({
  performance,
  rate,
  countInBars,
}: Pick<StemsOrder, 'performance' | 'rate' | 'countInBars'>): number {
  const countInSeconds = countInBars === 0 ? 0 : countInBefore(performance, 0, countInBars).lengthSeconds;
  return (countInSeconds + performance.lengthSeconds) / rate + tailSeconds;
}

function engineFor(order: StemsOrder, channels: 'together' | 'separate'): SoundEngine {
  const engine = new SoundEngine(order.sampleRate, channels);
  engine.setMix(order.mix);
  engine.load(order.performance);
  engine.setVolume(order.gainDb);
  engine.setClick(order.click);
  engine.setRate(order.rate);
  engine.play(0, order.countInBars);
  return engine;
}

/** One stem while it is rendered: what its bus gave, kept for as long as the limiter looks ahead. */
interface Strand {
  readonly bus: Bus;
  readonly left: Float32Array;
  readonly right: Float32Array;
  readonly out: StereoSound;
}

function strandOf(bus: Bus, latencySamples: number): Strand {
  const side = (): Float32Array => new Float32Array(latencySamples + pieceSamples);
  return {
    bus,
    left: side(),
    right: side(),
    out: { left: new Float32Array(pieceSamples), right: new Float32Array(pieceSamples) },
  };
}

/** The piece of one side: as it was when the limiter saw it, times what the limiter made of it. */
function withGains(raw: Float32Array, gains: Float32Array, out: Float32Array): void {
  for (let index = 0; index < pieceSamples; index += 1) out[index] = (raw[index] as number) * (gains[index] as number);
  raw.copyWithin(0, pieceSamples);
}

const cut = ({ left, right }: StereoSound, from: number, to: number): StereoSound => ({
  left: left.subarray(from, to),
  right: right.subarray(from, to),
});

function* piecesOf(
  order: StemsOrder,
  sources: readonly StemSource[],
  lengthFrames: number,
): Generator<StemsPiece, void> {
  const engine = engineFor(order, 'separate');
  const { latencySamples } = engine;
  const strands = new Map<StemSource, Strand>();
  for (const source of sources) {
    const bus = engine.busOf(source);
    if (bus !== undefined) strands.set(source, strandOf(bus, latencySamples));
  }
  const mix: StereoSound = { left: new Float32Array(pieceSamples), right: new Float32Array(pieceSamples) };
  const gains = new Float32Array(pieceSamples);
  for (let start = -latencySamples; start < lengthFrames; start += pieceSamples) {
    for (let at = 0; at < pieceSamples; at += blockSamples) {
      const end = at + blockSamples;
      engine.process(mix.left.subarray(at, end), mix.right.subarray(at, end), gains.subarray(at, end));
      for (const strand of strands.values()) {
        strand.left.set(strand.bus.left, latencySamples + at);
        strand.right.set(strand.bus.right, latencySamples + at);
      }
    }
    for (const strand of strands.values()) {
      withGains(strand.left, gains, strand.out.left);
      withGains(strand.right, gains, strand.out.right);
    }
    const from = Math.max(0, -start);
    const to = Math.min(pieceSamples, lengthFrames - start);
    const stems = new Map([...strands].map(([source, { out }]) => [source, cut(out, from, to)]));
    yield { mix: cut(mix, from, to), stems };
  }
}

/**
 * The mix and a stem for each source that is heard in it, in one rendering: strings are stolen and damped by all notes
 * whoever is heard, every stem begins with the mix, and what the limiter does to the mix it does to every stem, so that
 * the stems sum to the mix. Memory does not grow with length.
 */
export function stemsOf(order: StemsOrder): StemsRendering {
  const sources = audibleSources(order);
  const lengthFrames = Math.ceil(renderedSeconds(order) * order.sampleRate);
  return { sources, lengthFrames, pieces: () => piecesOf(order, sources, lengthFrames) };
}

/** The mix alone, in pieces; the same as `stemsOf` gives but for the last bits, and less work. */
export function* mixPieces(order: StemsOrder): Generator<StereoSound, void> {
  const engine = engineFor(order, 'together');
  const { latencySamples } = engine;
  const lengthFrames = Math.ceil(renderedSeconds(order) * order.sampleRate);
  const mix: StereoSound = { left: new Float32Array(pieceSamples), right: new Float32Array(pieceSamples) };
  for (let start = -latencySamples; start < lengthFrames; start += pieceSamples) {
    for (let at = 0; at < pieceSamples; at += blockSamples)
      engine.process(mix.left.subarray(at, at + blockSamples), mix.right.subarray(at, at + blockSamples));
    yield cut(mix, Math.max(0, -start), Math.min(pieceSamples, lengthFrames - start));
  }
}
