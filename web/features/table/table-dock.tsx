import { useMemo, useState } from 'react';
import type { Bar, Excerpt } from '../../../music/index.ts';
import { ExcerptSlip } from './excerpt-slip.tsx';
import { PlayLine } from './play-line.tsx';
import { SongStrip } from './song-strip.tsx';
import { SuggestionSlip } from './suggestion-slip.tsx';
import { wholeExcerpt } from './table-paper.tsx';
import styles from './table.module.css';
import type { TableSound } from './table-sound.ts';
import type { TableState } from './table-state.ts';
import type { Table } from './table.ts';

interface TableDockProps {
  readonly state: TableState;
  readonly table: Table;
  readonly sound: TableSound;
  readonly onReveal: (bar: Bar) => void;
  readonly onExcerpt: (excerpt: Excerpt | null) => void;
  readonly onKeys: () => void;
}

/** What stays at the foot of the page: the song, the next thing to do, and the playing. */
export function TableDock({ state, table, sound, onReveal, onExcerpt, onKeys }: TableDockProps) {
  const [choosesBars, setChoosesBars] = useState(false);
  const whole = useMemo(() => wholeExcerpt(state.score), [state.score]);
  return (
    <div className={styles.dock}>
      <div className={styles.foot}>
        <SongStrip state={state} player={sound.player} onReveal={onReveal} onExcerpt={onExcerpt} />
        <SuggestionSlip table={table} state={state} />
      </div>
      <PlayLine state={state} sound={sound} onBars={() => setChoosesBars(true)} onKeys={onKeys} />
      {whole === null ? null : (
        <ExcerptSlip
          score={state.score}
          excerpt={state.excerpt ?? whole}
          isOpen={choosesBars}
          onClose={() => setChoosesBars(false)}
          onExcerpt={onExcerpt}
        />
      )}
    </div>
  );
}
