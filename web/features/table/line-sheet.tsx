import { useState } from 'react';
import { createPortal } from 'react-dom';
import { plainSetting, type Line } from '../../../music/index.ts';
import type { Player } from '../../playback/player.ts';
import { usePlayer } from '../../playback/react.ts';
import { WordButton } from '../../ui/buttons.tsx';
import { dyePaint } from '../../ui/dye.ts';
import { LineMixer } from '../../ui/line-mixer.tsx';
import { LineFaceForm } from './line-face-form.tsx';
import { LineWhy } from './line-why.tsx';
import styles from './line-sheet.module.css';
import type { Table } from './table.ts';
import type { TableState } from './table-state.ts';

interface LineSheetProps {
  readonly table: Table;
  readonly state: TableState;
  readonly player: Player;
  readonly line: Line;
  /** The gap under the system that it hangs in. */
  readonly gap: HTMLElement;
  readonly onClose: () => void;
}

/** A line's sheet: its sound and its name, hung from its eye by a loose end of its thread, in the gap under the system. */
export function LineSheet(props: LineSheetProps) {
  const { line, gap, onClose } = props;
  return createPortal(
    <section
      className={styles.sheet}
      aria-label={`${line.name}, its sheet`}
      onKeyDown={(event) => {
        if (event.key === 'Escape') onClose();
      }}
    >
      <svg className={styles.end} width="64" height="56" viewBox="0 0 64 56" aria-hidden="true">
        <path
          d="M36 -30C36 20 40 44 64 44"
          fill="none"
          strokeWidth="3"
          style={{ stroke: dyePaint[line.dye].colour, strokeDasharray: dyePaint[line.dye].stitch }}
        />
      </svg>
      <div className={styles.body}>
        <LineName {...props} />
        <LineSound {...props} />
      </div>
    </section>,
    isNarrow() ? document.body : gap,
  );
}

/** On a phone the sheet is a slip from below. */
const isNarrow = (): boolean => window.matchMedia('(max-width: 640px)').matches;

interface LineSoundProps {
  readonly table: Table;
  readonly state: TableState;
  readonly player: Player;
  readonly line: Line;
}

/** Everything about a line's sound. */
export function LineSound({ table, state, player, line }: LineSoundProps) {
  const { settings, forward } = usePlayer(player);
  return (
    <LineMixer
      setting={settings.get(line.id) ?? plainSetting}
      hasPitch={line.role !== 'percussion'}
      onSet={(part) => player.setLine(line.id, part)}
      deeds={{
        isLifted: state.lifted.has(line.id),
        isForward: forward === line.id,
        onLift: () => table.lift(line.id),
        onForward: (isForward) => player.bringForward(isForward ? line.id : null),
      }}
    />
  );
}

function LineName({ table, state, line, onClose }: LineSheetProps) {
  const [isNaming, setNaming] = useState(false);
  if (isNaming) return <LineFaceForm table={table} line={line} onDone={() => setNaming(false)} onClose={onClose} />;
  return (
    <div className={styles.head}>
      <h2>{line.name}</h2>
      <WordButton onPress={() => setNaming(true)}>Name and role</WordButton>
      <WordButton onPress={onClose} autoFocus>
        Close
      </WordButton>
      <LineWhy state={state} line={line} />
    </div>
  );
}
