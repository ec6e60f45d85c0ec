import { useState, type KeyboardEvent } from 'react';
import type { Bar, Score } from '../../../music/index.ts';
import { barWords } from '../../engraving/place-words.ts';
import type { Player } from '../../playback/player.ts';

const steps: Readonly<Record<string, number>> = {
  ArrowLeft: -1,
  ArrowDown: -1,
  ArrowRight: 1,
  ArrowUp: 1,
  PageDown: -8,
  PageUp: 8,
  Home: -Infinity,
  End: Infinity,
};

const barIndexAt = (bars: readonly Bar[], ticks: number): number =>
  Math.max(
    0,
    bars.findLastIndex((bar) => bar.onsetTicks <= ticks),
  );

/** Goes through the song bar by bar from the keyboard: the bar comes into view, and the place rests there unless music plays. */
export function useBarSteps(score: Score, player: Player, onReveal: (bar: Bar) => void) {
  const { bars } = score;
  const [index, setIndex] = useState(0);
  const bar = bars[index];
  const name = bar === undefined ? '' : bar.isImplicit && index === 0 ? 'the pickup' : `bar ${barWords(bar)}`;
  return {
    'aria-valuemin': 1,
    'aria-valuemax': Math.max(1, bars.length),
    'aria-valuenow': index + 1,
    'aria-valuetext': name,
    onFocus: () => setIndex(barIndexAt(bars, player.position.getTicks())),
    onKeyDown: (event: KeyboardEvent) => {
      const step = steps[event.key];
      if (step === undefined || event.altKey || event.ctrlKey || event.metaKey) return;
      event.preventDefault();
      const next = Math.min(bars.length - 1, Math.max(0, index + step));
      const there = bars[next];
      if (there === undefined) return;
      setIndex(next);
      if (!['playing', 'starting', 'waiting'].includes(player.getSnapshot().status)) player.moveTo(there.onsetTicks);
      onReveal(there);
    },
  };
}
