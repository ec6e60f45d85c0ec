import { barOf, barId } from '../../../music/index.ts';
import { barWords } from '../../engraving/place-words.ts';
import { SaveSign } from '../../ui/save-sign.tsx';
import styles from './table.module.css';
import type { Table } from './table.ts';
import type { TableState } from './table-state.ts';

/** Who else is here and where, and how far one's own work has come. */
export function PeersLine({ state, table }: { readonly state: TableState; readonly table: Table }) {
  const { peers, saveState } = state.room;
  return (
    <>
      {peers.map((peer) => {
        const bar = peer.presence.bar === null ? undefined : barOf(state.score, barId(peer.presence.bar));
        return (
          <span key={peer.connectionId} className={styles.peer}>
            <i style={{ borderColor: `var(--peer-${table.colours.of(peer.personId)})` }} />
            {peer.name}{' '}
            {bar === undefined
              ? 'is here'
              : `is at ${bar.isImplicit && bar.ordinal === 1 ? 'the pickup' : `bar ${barWords(bar)}`}`}
          </span>
        );
      })}
      <SaveSign
        state={
          saveState.kind === 'waiting' ? { ...saveState, what: saveState.count === 1 ? 'mark' : 'marks' } : saveState
        }
      />
    </>
  );
}
