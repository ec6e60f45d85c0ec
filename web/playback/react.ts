import { useSyncExternalStore } from 'react';
import type { PlayerSnapshot } from './player-snapshot.ts';
import type { Player } from './player.ts';

/** The player's present state; the component renders again when it changes. */
export const usePlayer = (player: Player): PlayerSnapshot => useSyncExternalStore(player.subscribe, player.getSnapshot);
