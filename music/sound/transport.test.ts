import { describe, expect, it } from 'vitest';
import { meter, note, voices } from '../../tests/support/score-builders.ts';
import { splitOf } from '../../tests/support/split-builders.ts';
import { lineId } from '../basis/ids.ts';
import type { Subdivision } from '../perform/performance.ts';
import { performLines } from '../perform/perform-lines.ts';
import type { Pass, Programme } from './programme.ts';
import { planStages, type SecondsRange, type Stage } from './stages.ts';
import { Transport, type TransportTarget } from './transport.ts';

const sampleRate = 48_000;
const blockSamples = 128;
const quarterSeconds = 60 / 97;
const score = {
  ...voices(meter(4, 4), [note('E4', 1), note('D4', 1), note('C4', 2)], [note('C3', 2), note('G2', 2)]),
  tempos: [{ onsetTicks: 0, quartersPerMinute: 97 }],
};
const split = splitOf({ melody: ['n1', 'n3', 'n4'], bass: ['n2', 'n5'] });
const performance = performLines(score, split);

interface Seen {
  readonly what: string;
  readonly frame: number;
  readonly gains: readonly number[] | null;
}

class Witness implements TransportTarget {
  readonly seen: Seen[] = [];
  frame = 0;
  private note(what: string, sample: number, gains: readonly number[] | null = null): void {
    this.seen.push({ what, frame: this.frame + sample, gains });
  }
  startEvent(index: number, stage: Stage, sample: number): void {
    this.note(performance.events[index]!.note, sample, stage.gains);
  }
  click(beat: { readonly accent: string }, sample: number): void {
    this.note(beat.accent, sample);
  }
  stageBegan(stage: Stage, sample: number): void {
    this.note(`stage ${stage.kind}`, sample);
  }
  ended(sample: number): void {
    this.note('ended', sample);
  }
}

interface Wish {
  readonly loop?: SecondsRange | null;
  readonly programme?: Programme | null;
  readonly fromSeconds?: number;
  readonly countInBars?: number;
  readonly isClickOn?: boolean;
  readonly subdivision?: Subdivision;
  readonly blocks: number;
  readonly rateAt?: (block: number) => number;
}

function run({
  loop = null,
  programme = null,
  fromSeconds = 0,
  countInBars = 0,
  isClickOn = false,
  subdivision = 1,
  blocks,
  rateAt,
}: Wish) {
  const witness = new Witness();
  const transport = new Transport(sampleRate, witness);
  transport.clickSetting = { isOn: isClickOn, subdivision };
  transport.start(planStages({ performance, loop, programme, fromSeconds, countInBars }), performance.events);
  const positions: number[] = [];
  for (let block = 0; block < blocks; block += 1) {
    if (rateAt !== undefined) transport.setRate(rateAt(block));
    transport.advance(blockSamples);
    witness.frame += blockSamples;
    positions.push(transport.positionSeconds);
  }
  return {
    seen: witness.seen,
    positions,
    framesOf: (what: string) => witness.seen.flatMap((each) => (each.what === what ? [each.frame] : [])),
  };
}

const whole: SecondsRange = { startSeconds: 0, endSeconds: performance.lengthSeconds };

describe('the transport', () => {
  it('starts each event at the first sample that is not before it', () => {
    const { seen } = run({ blocks: 2000 });
    const starts = seen.filter(({ what }) => what.startsWith('n'));
    expect(starts.map(({ what }) => what)).toEqual(performance.events.map((event) => event.note));
    for (const [index, { frame }] of starts.entries()) {
      expect(frame).toBe(Math.ceil(performance.events[index]!.onsetSeconds * sampleRate - 1e-6) + 0);
    }
    expect(seen.at(-1)!.what).toBe('ended');
  });

  it('[R37] keeps a loop’s period exact over 100 loops, whatever the length', () => {
    const loop = { startSeconds: 0, endSeconds: 1.234567 };
    const { framesOf } = run({ loop, blocks: Math.ceil((101 * 1.234567 * sampleRate) / blockSamples) });
    const frames = framesOf('n1');
    expect(frames.length).toBeGreaterThan(100);
    for (const [index, frame] of frames.entries())
      expect(Math.abs(frame - index * 1.234567 * sampleRate)).toBeLessThanOrEqual(1);
  });

  it('[R38] changes tempo without a jump of the position', () => {
    const { positions } = run({
      loop: whole,
      blocks: 600,
      rateAt: (block) => (block < 200 ? 1 : block < 400 ? 0.25 : 1.5),
    });
    const steps = positions
      .slice(1)
      .map((position, index) => position - positions[index]!)
      .filter((step) => step > 0);
    expect(Math.max(...steps)).toBeLessThanOrEqual((1.5 * blockSamples) / sampleRate + 1e-9);
    expect(Math.min(...steps)).toBeGreaterThan((0.24 * blockSamples) / sampleRate);
  });

  it('begins anywhere, and comes back to the loop’s start', () => {
    const { seen, framesOf } = run({ loop: whole, fromSeconds: quarterSeconds * 1.5, blocks: 2500 });
    expect(seen.filter(({ what }) => what.startsWith('n'))[0]!.what).toBe('n4');
    expect(framesOf('n1')[0]).toBe(Math.ceil(quarterSeconds * 2.5 * sampleRate));
  });

  it('counts in with the part-bar before an excerpt that begins within a bar, always with clicks', () => {
    const { framesOf, seen } = run({ fromSeconds: quarterSeconds, countInBars: 1, blocks: 3000 });
    expect(framesOf('bar')).toHaveLength(2);
    expect(framesOf('beat')).toHaveLength(3);
    const playing = seen.find(({ what }) => what === 'stage play')!.frame;
    expect(Math.abs(playing - quarterSeconds * 5 * sampleRate)).toBeLessThanOrEqual(1);
    expect(framesOf('n3')[0]).toBe(playing);
  });

  it('clicks while playing only where asked for', () => {
    expect(run({ blocks: 1000 }).framesOf('bar')).toEqual([]);
    expect(run({ blocks: 1000, isClickOn: true }).framesOf('beat')).toHaveLength(3);
  });

  it.each([2, 3, 4] as const)('[R57] divides each beat into %i equal parts, to the sample', (subdivision) => {
    const { seen } = run({ blocks: 1000, isClickOn: true, subdivision });
    const clicks = seen.filter(({ what }) => ['bar', 'beat', 'part'].includes(what));
    expect(clicks).toHaveLength(4 * subdivision);
    for (const [index, { what, frame }] of clicks.entries()) {
      expect(what).toBe(index === 0 ? 'bar' : index % subdivision === 0 ? 'beat' : 'part');
      expect(frame).toBe(Math.max(0, Math.ceil((index * quarterSeconds * sampleRate) / subdivision - 1e-6)));
    }
  });

  it('[R57] counts in on the beats alone while the click is off, and with its parts while it is on', () => {
    const counted = (isClickOn: boolean) =>
      run({ countInBars: 1, blocks: 900, isClickOn, subdivision: 3 }).seen.filter(({ what }) => what === 'part').length;
    expect(counted(false)).toBe(0);
    expect(counted(true)).toBe(8);
  });
});

describe('[R40] programmes', () => {
  const lines = [lineId('melody'), lineId('bass')];
  const both: Pass = { kind: 'play', lines: lines.map((line) => ({ line, levelDb: 0 })) };
  const echo: readonly Pass[] = [both, { kind: 'silence', withClick: false }, both];
  const stopping = (passes: readonly Pass[]): Programme => ({ passes, afterLast: 'stop' });
  const stages = (programme: Programme, blocks = 8000) => run({ programme, blocks }).seen;

  it('echo: hear, the same length of silence, hear again', () => {
    const seen = stages(stopping(echo));
    const began = seen.filter(({ what }) => what.startsWith('stage')).map(({ frame }) => frame);
    expect(seen.filter(({ what }) => what.startsWith('stage')).map(({ what }) => what)).toEqual([
      'stage play',
      'stage silence',
      'stage play',
    ]);
    expect(Math.abs(began[2]! - 2 * performance.lengthSeconds * sampleRate)).toBeLessThanOrEqual(2);
    expect(seen.filter(({ what, frame }) => what.startsWith('n') && frame >= began[1]! && frame < began[2]!)).toEqual(
      [],
    );
    expect(seen.filter(({ what }) => what === 'n1')).toHaveLength(2);
    expect(seen.at(-1)!.what).toBe('ended');
  });

  it('reveal: the first note, a count-in, silence with the click, the line', () => {
    const bass = lineId('bass');
    const seen = stages(
      stopping([
        { kind: 'firstNote', line: bass },
        { kind: 'countIn', bars: 1 },
        { kind: 'silence', withClick: true },
        { kind: 'play', lines: [{ line: bass, levelDb: 0 }] },
      ]),
    );
    expect(seen.filter(({ what }) => what.startsWith('stage')).map(({ what }) => what)).toEqual([
      'stage firstNote',
      'stage countIn',
      'stage silence',
      'stage play',
    ]);
    const first = seen.filter(({ what }) => what.startsWith('n'));
    expect(first[0]!.what).toBe('n2');
    const silence = seen.find(({ what }) => what === 'stage silence')!.frame;
    const play = seen.findLast(({ what }) => what === 'stage play')!.frame;
    expect(first[1]!.frame).toBe(play);
    expect(
      seen.filter(({ what, frame }) => (what === 'bar' || what === 'beat') && frame >= silence && frame < play),
    ).toHaveLength(4);
    expect(first[1]!.gains).toEqual([0, 1, 0]);
  });

  const fading = (levelDb: number): Pass => ({
    kind: 'play',
    lines: [
      { line: lineId('melody'), levelDb },
      { line: lineId('bass'), levelDb: 0 },
    ],
  });

  it('fade: one line softer from pass to pass, silent in the last; the others as they were', () => {
    const seen = stages(stopping([0, -12, -24, -60].map(fading)), 12_000).filter(({ what }) => what === 'n1');
    const gains = seen.map((each) => each.gains!);
    expect(gains).toHaveLength(4);
    expect(gains.map((pass) => pass[1])).toEqual([1, 1, 1, 1]);
    expect(gains[0]![0]).toBe(1);
    expect(gains[1]![0]!).toBeLessThan(gains[0]![0]!);
    expect(gains[2]![0]!).toBeLessThan(gains[1]![0]!);
    expect(gains[3]![0]).toBe(0);
  });

  it('goes on after the last pass as it is told', () => {
    const passes = echo;
    const began = (afterLast: Programme['afterLast']): string[] =>
      run({ programme: { passes, afterLast }, blocks: 6000 })
        .seen.filter(({ what }) => what.startsWith('stage'))
        .map(({ what }) => what.slice(6));
    expect(began('stop')).toEqual(['play', 'silence', 'play']);
    expect(began('again').slice(0, 6)).toEqual(['play', 'silence', 'play', 'play', 'silence', 'play']);
    expect(began('stay').slice(0, 6)).toEqual(['play', 'silence', 'play', 'play', 'play', 'play']);
  });

  it('plays nothing, and ends, where nothing lasts', () => {
    const nothing = planStages({
      performance,
      loop: { startSeconds: 1, endSeconds: 1 },
      programme: null,
      fromSeconds: 1,
      countInBars: 0,
    });
    expect(nothing.stages).toEqual([]);
    expect(
      planStages({
        performance,
        loop: null,
        programme: { passes: [], afterLast: 'again' },
        fromSeconds: 0,
        countInBars: 1,
      }).repeatFrom,
    ).toBeNull();
  });
});
