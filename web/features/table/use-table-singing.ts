import { useEffect, useMemo } from 'react';
import { ticksOfExcerpt, wholeOf } from '../../../music/index.ts';
import { useSinging, type Singing } from '../../playback/use-singing.ts';
import type { TableSound } from './table-sound.ts';
import type { TableState } from './table-state.ts';

/** Singing along at the table: with the open bars, or the whole song. */
export function useTableSinging(sound: TableSound, { score, room, excerpt }: TableState): Singing {
  const range = useMemo(
    () => (excerpt === null ? null : ticksOfExcerpt(score, excerpt)) ?? wholeOf(score),
    [score, excerpt],
  );
  const singing = useSinging({ score, split: room.split, range, player: sound.player });
  const { along } = singing;
  useEffect(() => sound.singAlong(along), [sound, along]);
  return singing;
}
