import type { ClickSetting } from '../../music/index.ts';
import type { PlayerSnapshot, Touch } from './player-snapshot.ts';

/** A click by name: off, or how many there are to a beat. */
export type ClickName = 'off' | '1' | '2' | '3' | '4';

export const clickNames: readonly { readonly value: ClickName; readonly text: string }[] = [
  { value: 'off', text: 'off' },
  { value: '1', text: 'on the beats' },
  { value: '2', text: 'on halves of a beat' },
  { value: '3', text: 'on thirds of a beat' },
  { value: '4', text: 'on quarters of a beat' },
];

const subdivisions = { '1': 1, '2': 2, '3': 3, '4': 4 } as const;

export const clickNameOf = ({ isOn, subdivision }: ClickSetting): ClickName => (isOn ? `${subdivision}` : 'off');

/** The click that goes by a name; how finely it divided the beats is kept while it is off. */
export const clickNamed = (name: ClickName, present: ClickSetting): ClickSetting =>
  name === 'off' ? { ...present, isOn: false } : { isOn: true, subdivision: subdivisions[name] };

export const touchWords: Readonly<Record<Touch, string>> = {
  playOn: 'plays on from there',
  note: 'sounds the note',
  stroke: 'sounds all that starts with it, at one stroke',
  spread: 'sounds all that starts with it, spread out',
};

const clickWords = { 1: 'click on beats', 2: 'click on halves', 3: 'click on thirds', 4: 'click on quarters' } as const;

/** The level of everything together, in words. **Units** decibels. */
export const volumeWords = (levelDb: number): string =>
  levelDb === 0 ? 'as it is' : `${Math.abs(levelDb)} dB ${levelDb < 0 ? 'softer' : 'louder'}`;

/** What of the playing is otherwise than at first, in a few words; null where nothing is. */
export function playingSummary(
  { click, countInBars, volumeDb }: Pick<PlayerSnapshot, 'click' | 'countInBars' | 'volumeDb'>,
  followsRepeats: boolean | null,
): string | null {
  const words = [
    countInBars === 0 ? [] : countInBars === 1 ? 'a bar counted in' : 'two bars counted in',
    click.isOn ? clickWords[click.subdivision] : [],
    followsRepeats === false ? 'no repeats' : [],
    volumeDb === 0 ? [] : volumeWords(volumeDb),
  ].flat();
  return words.length === 0 ? null : words.join(', ');
}
