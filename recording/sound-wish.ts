import {
  engineMixOf,
  instrumentsOf,
  linePowersOf,
  performLines,
  settingsOfLines,
  ticksOfExcerpt,
  unfoldedRanges,
  unfoldedWithin,
  wholeOf,
  type ClickSetting,
  type Excerpt,
  type LineId,
  type MixedLine,
  type PerformOptions,
  type Score,
  type Split,
  type StemsOrder,
  type TickRange,
} from '../music/index.ts';

/** What of a song is to be heard in a sound file, and how. */
export interface SoundWish {
  /** Null for the whole song. */
  readonly excerpt: Excerpt | null;
  /** Whether repeats and jumps are followed, of an excerpt those within it. */
  readonly isUnfolded: boolean;
  readonly mix: { readonly lines: readonly MixedLine[]; readonly forward: LineId | null };
  readonly playing: Pick<PerformOptions, 'expression' | 'human'>;
  /** 25 to 150; 100 as written. */
  readonly tempoPercent: number;
  readonly countInBars: 0 | 1 | 2;
  readonly click: ClickSetting;
}

/** The sample rate of every sound file. **Units** hertz. */
export const fileSampleRate = 48_000;

function rangesOf(score: Score, { excerpt, isUnfolded }: SoundWish): readonly TickRange[] | null {
  if (excerpt === null) return isUnfolded ? unfoldedRanges(score) : [wholeOf(score)];
  const range = ticksOfExcerpt(score, excerpt);
  if (range === null) return null;
  return isUnfolded ? unfoldedWithin(score, range) : [range];
}

/** What is rendered for a wish; null where the score has no such bars. A line that is brought forward costs a measuring of all lines. */
export function stemsOrderOf(score: Score, split: Split, wish: SoundWish): StemsOrder | null {
  const ranges = rangesOf(score, wish);
  if (ranges === null) return null;
  const settings = settingsOfLines(wish.mix.lines);
  const performance = performLines(score, split, { ...wish.playing, ranges, instruments: instrumentsOf(settings) });
  const { forward } = wish.mix;
  const powers = forward === null ? null : linePowersOf(performance);
  return {
    performance,
    mix: engineMixOf(performance.lines, settings, forward, powers),
    sampleRate: fileSampleRate,
    rate: wish.tempoPercent / 100,
    countInBars: wish.countInBars,
    click: wish.click,
  };
}
