import { useMemo, useState } from 'react';
import type { Bar, Excerpt } from '../../../music/index.ts';
import { wholeExcerpt } from '../../engraving/sheet-place.ts';
import type { Singing } from '../../playback/use-singing.ts';
import type { ExportSlot } from '../../ui/export-slot.ts';
import { ExcerptSlip } from './excerpt-slip.tsx';
import { NoteDeeds } from './note-deeds.tsx';
import { NotePlace } from './note-place.tsx';
import { PlayLine } from './play-line.tsx';
import { SongStrip } from './song-strip.tsx';
import { SuggestionSlip } from './suggestion-slip.tsx';
import styles from './table.module.css';
import type { Desk } from './desk.ts';
import { presentMixOf } from './table-mixes.ts';
import type { TableState } from './table-state.ts';

/** The slip that takes the song or the open bars out. */
export interface TakeOut {
  readonly songId: string;
  readonly ExportSlip: ExportSlot;
}

interface TableDockProps {
  readonly state: TableState;
  readonly desk: Desk;
  readonly singing: Singing;
  readonly onReveal: (bar: Bar) => void;
  readonly onExcerpt: (excerpt: Excerpt | null) => void;
  readonly onKeys: () => void;
  readonly takeOut: TakeOut;
}

/** What stays at the foot of the page: the song, the next thing to do, and the playing. */
export function TableDock({ state, desk, singing, onReveal, onExcerpt, onKeys, takeOut }: TableDockProps) {
  const { table, sound } = desk;
  const [choosesBars, setChoosesBars] = useState(false);
  const [takesOut, setTakesOut] = useState(false);
  const whole = useMemo(() => wholeExcerpt(state.score), [state.score]);
  return (
    <div className={styles.dock}>
      <div className={styles.atHand}>
        <NotePlace state={state} />
        <NoteDeeds table={table} sound={sound} state={state} />
      </div>
      <div className={styles.foot}>
        <SongStrip state={state} player={sound.player} onReveal={onReveal} onExcerpt={onExcerpt} />
        <SuggestionSlip table={table} state={state} />
      </div>
      <PlayLine
        state={state}
        desk={desk}
        singing={singing}
        onBars={() => setChoosesBars(true)}
        onKeys={onKeys}
        onTakeOut={() => setTakesOut(true)}
      />
      <takeOut.ExportSlip
        songId={takeOut.songId}
        excerpt={state.excerpt}
        heard={takesOut ? presentMixOf(desk, state) : null}
        isOpen={takesOut}
        onClose={() => setTakesOut(false)}
      />
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
