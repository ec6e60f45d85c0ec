import { useSyncExternalStore } from 'react';
import { activeLines } from '../../../music/index.ts';
import { usePlayer } from '../../playback/react.ts';
import { MixesWord } from '../../ui/mixes/mixes-word.tsx';
import type { Desk } from './desk.ts';
import { hearMix, heardMixOf } from './table-mixes.ts';
import type { TableState } from './table-state.ts';

interface MixesProps {
  readonly desk: Desk;
  readonly state: TableState;
}

/** The song's named mixes, which its teachers keep together. */
export function Mixes({ desk, state }: MixesProps) {
  const { kept, sound } = desk;
  const { document, trouble } = useSyncExternalStore(kept.subscribe, kept.getSnapshot);
  const snapshot = usePlayer(sound.player);
  return (
    <MixesWord
      lines={activeLines(state.room.split)}
      heard={heardMixOf(snapshot, state)}
      given={[]}
      own={{
        mixes: document?.mixes ?? [],
        change: (change) => void kept.change((present) => ({ ...present, mixes: change(present.mixes) })),
        trouble,
        again: () => void kept.load(),
      }}
      onHear={(heard) => hearMix(desk, heard)}
    />
  );
}
