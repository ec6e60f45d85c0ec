import type { ClickSetting } from '../../music/index.ts';
import { WordChoice, type WordOption } from '../ui/word-choice.tsx';
import type { Player } from './player.ts';
import { usePlayer } from './react.ts';

type ClickName = 'off' | ClickSetting['subdivision'];

const options: readonly WordOption<ClickName>[] = [
  { value: 'off', text: 'off' },
  { value: 1, text: 'on the beats' },
  { value: 2, text: 'on halves of a beat' },
  { value: 3, text: 'on thirds of a beat' },
  { value: 4, text: 'on quarters of a beat' },
];

const words: Readonly<Record<ClickName, string>> = {
  off: 'click off',
  1: 'click on beats',
  2: 'click on halves',
  3: 'click on thirds',
  4: 'click on quarters',
};

/** The click of a player: off, or how finely it divides the beats. */
export function ClickChoice({ player }: { readonly player: Player }) {
  const { click } = usePlayer(player);
  const name: ClickName = click.isOn ? click.subdivision : 'off';
  const choose = (chosen: ClickName) =>
    player.setClick(chosen === 'off' ? { ...click, isOn: false } : { isOn: true, subdivision: chosen });
  return (
    <WordChoice label="Click" value={name} options={options} onChoose={choose}>
      {words[name]}
    </WordChoice>
  );
}
