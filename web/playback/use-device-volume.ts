import { useEffect } from 'react';
import { useOwnVolume } from '../lib/own-volume.ts';
import type { Player } from './player.ts';

/** Lets a player play at the volume of this device. */
export function useDeviceVolume(player: Player): void {
  const [volumeDb] = useOwnVolume();
  useEffect(() => player.setVolume(volumeDb), [player, volumeDb]);
}
