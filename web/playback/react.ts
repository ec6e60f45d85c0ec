import { useEffect, useSyncExternalStore } from 'react';
import type { Player, PlayerSnapshot } from './player.ts';

/** The player's present state; the component renders again when it changes. */
export const usePlayer = (player: Player): PlayerSnapshot => useSyncExternalStore(player.subscribe, player.getSnapshot);

/** Calls `follow` with the sounding moment in written ticks, once a frame while it moves; nothing is rendered by it. */
export function usePlayingPosition(player: Player, follow: (ticks: number) => void): void {
  useEffect(() => player.position.subscribe(follow), [player, follow]);
}
