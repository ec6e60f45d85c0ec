import { WordChoice } from '../ui/word-choice.tsx';
import type { Touch } from './player-snapshot.ts';
import type { Player } from './player.ts';
import { usePlayer } from './react.ts';

const words: Readonly<Record<Touch, string>> = {
  playOn: 'plays on from there',
  note: 'sounds the note',
  stroke: 'sounds all that starts with it, at one stroke',
  spread: 'sounds all that starts with it, spread out',
};

const shortWords: Readonly<Record<Touch, string>> = {
  playOn: 'a touch plays on',
  note: 'a touch sounds the note',
  stroke: 'a touch sounds all at once',
  spread: 'a touch spreads all out',
};

interface TouchChoiceProps {
  readonly player: Player;
  readonly touches: readonly Touch[];
}

/** What touching a note does, and what else it could do. */
export function TouchChoice({ player, touches }: TouchChoiceProps) {
  const { touch } = usePlayer(player);
  return (
    <WordChoice
      label="Touching a note"
      value={touch}
      options={touches.map((value) => ({ value, text: words[value] }))}
      onChoose={(chosen) => player.setTouch(chosen)}
    >
      {shortWords[touch]}
    </WordChoice>
  );
}
