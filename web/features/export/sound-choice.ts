import type { NamedMix, SongSound } from '../../../contract/index.ts';
import {
  activeLines,
  plainSetting,
  ticksOfExcerpt,
  unfoldedRanges,
  unfoldedWithin,
  type Line,
  type LineId,
} from '../../../music/index.ts';
import type { SoundWish } from '../../../recording/index.ts';
import type { ExportedSong } from './make-files.ts';

/** Everything that can be chosen about sound files. */
export interface SoundChoice {
  /** `everybody`, or `mix:`, `alone:` or `forward:` and an id. */
  readonly heard: string;
  readonly hasStems: boolean;
  readonly tempoPercent: number;
  readonly isUnfolded: boolean;
  readonly countInBars: 0 | 1 | 2;
  readonly hasClick: boolean;
  /** **Units** LUFS; null leaves it as it is played. */
  readonly targetLufs: number | null;
}

/** What is chosen before anybody chose: what is heard just now, else everybody. */
export const firstSoundChoiceFor = (heard: NamedMix | null): SoundChoice => ({
  heard: heard === null ? 'everybody' : `mix:${heard.id}`,
  hasStems: false,
  tempoPercent: 100,
  isUnfolded: true,
  countInBars: 0,
  hasClick: false,
  targetLufs: -16,
});

/** What can be heard, in words: everybody, the song's mixes, each line forward, each alone. */
export function heardOptions(
  lines: readonly Line[],
  { mixes }: SongSound,
): readonly { readonly value: string; readonly text: string }[] {
  const named = new Set(mixes.map(({ name }) => name.toLowerCase()));
  const unnamed = (value: string, text: string) => (named.has(text.toLowerCase()) ? [] : [{ value, text }]);
  return [
    ...unnamed('everybody', 'everybody'),
    ...mixes.map(({ id, name }) => ({ value: `mix:${id}`, text: name })),
    ...lines.flatMap(({ id, name }) => unnamed(`forward:${id}`, `${name} forward`)),
    ...lines.flatMap(({ id, name }) => unnamed(`alone:${id}`, `${name} alone`)),
  ];
}

/** Whether there are repeats or jumps to follow in what is taken out. */
export function hasRepeats({ score, excerpt }: ExportedSong, isExcerpt: boolean): boolean {
  const range = isExcerpt && excerpt !== null ? ticksOfExcerpt(score, excerpt) : null;
  return (range === null ? unfoldedRanges(score) : unfoldedWithin(score, range)).length > 1;
}

type HeardMix = SoundWish['mix'];

function mixOf({ heard }: SoundChoice, lines: readonly Line[], { mixes }: SongSound): HeardMix {
  const [kind, id] = [heard.slice(0, heard.indexOf(':')), heard.slice(heard.indexOf(':') + 1)];
  const line: LineId | null = lines.find((each) => each.id === id)?.id ?? null;
  const mix = mixes.find((each) => each.id === id);
  if (kind === 'mix' && mix !== undefined) return { lines: mix.lines, forward: mix.forward };
  if (kind === 'forward') return { lines: [], forward: line };
  if (kind !== 'alone' || line === null) return { lines: [], forward: null };
  return { lines: [{ ...plainSetting, instrument: undefined, line, isSolo: true }], forward: null };
}

/** What a choice means for a song. */
export function soundWishOf(song: ExportedSong, sound: SongSound, choice: SoundChoice, isExcerpt: boolean): SoundWish {
  const { tempoPercent, isUnfolded, countInBars } = choice;
  return {
    excerpt: isExcerpt ? song.excerpt : null,
    isUnfolded,
    mix: mixOf(choice, activeLines(song.split), sound),
    playing: sound.playing,
    tempoPercent,
    countInBars,
    click: { isOn: choice.hasClick, subdivision: 1 },
  };
}
