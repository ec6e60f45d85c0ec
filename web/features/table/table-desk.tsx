import { useCallback, useState, useSyncExternalStore } from 'react';
import type { Excerpt } from '../../../music/index.ts';
import type { Sheet } from '../../engraving/sheet.ts';
import { LabelsChoice } from '../../ui/singing/labels-choice.tsx';
import { MovedNote } from '../../ui/singing/moved-note.tsx';
import { PageFrame } from '../../ui/page-frame.tsx';
import { ViewSwitch } from '../../ui/view-switch.tsx';
import type { Desk } from './desk.ts';
import { KeysSlip } from './keys-slip.tsx';
import { LineSheet } from './line-sheet.tsx';
import { LinesRow } from './lines-row.tsx';
import { PeersLine } from './peers-line.tsx';
import { RibbonsPaper } from './ribbons-paper.tsx';
import { TableDock, type TakeOut } from './table-dock.tsx';
import { TableNotices } from './table-notices.tsx';
import { TablePaper } from './table-paper.tsx';
import styles from './table.module.css';
import type { TableView } from './table-state.ts';
import { useOpenLine } from './use-open-line.ts';
import { useTableSinging } from './use-table-singing.ts';
import { useTableKeys } from './use-table-keys.ts';

interface TableDeskProps {
  readonly desk: Desk;
  readonly title: string;
  readonly musicXml: string;
  readonly onAddress: (address: { readonly view?: TableView; readonly excerpt?: Excerpt | null }) => void;
  readonly takeOut: TakeOut;
}

const views: readonly { readonly view: TableView; readonly text: string }[] = [
  { view: 'stacked', text: 'Stacked' },
  { view: 'threaded', text: 'Threaded' },
  { view: 'writtenOut', text: 'Written out' },
  { view: 'ribbons', text: 'Ribbons' },
];

/** Changes of view and excerpt, told to the table, to the player and to the address. */
function useAddressed(
  { table, sound }: Desk,
  sheet: Sheet | null,
  onAddress: TableDeskProps['onAddress'],
  close: () => void,
) {
  const takeExcerpt = (excerpt: Excerpt | null) => {
    table.setExcerpt(excerpt);
    sound.setAgain(table.getSnapshot(), excerpt !== null);
    sound.restAt(excerpt);
    onAddress({ excerpt });
    if (excerpt !== null) sheet?.reveal(excerpt.from.bar);
  };
  const takeView = (view: TableView) => {
    close();
    table.setView(view);
    onAddress({ view });
  };
  return { takeExcerpt, takeView };
}

/** The splitting table: the score on paper, the lines above it, the song and the playing below. */
export function TableDesk({ desk, title, musicXml, onAddress, takeOut }: TableDeskProps) {
  const { table, sound, room } = desk;
  const state = useSyncExternalStore(table.subscribe, table.getSnapshot);
  const [sheet, setSheet] = useState<Sheet | null>(null);
  const [showsKeys, setShowsKeys] = useState(false);
  const singing = useTableSinging(sound, state);
  const { open, close, toggle } = useOpenLine();
  const showKeys = useCallback(() => setShowsKeys(true), []);
  useTableKeys(desk, open?.line ?? null, showKeys, close);
  const openLine = state.room.split.lines.find((line) => line.id === open?.line && !line.isRetired);
  const { takeExcerpt, takeView } = useAddressed(desk, sheet, onAddress, close);
  return (
    <PageFrame
      title={title}
      width="wide"
      place={<h1 className={styles.title}>{title}</h1>}
      end={<PeersLine state={state} table={table} />}
    >
      <div className={styles.top}>
        <ViewSwitch label="Ways of looking" views={views} chosen={state.view} onChoose={takeView} />
        {state.view === 'ribbons' ? <LabelsChoice score={state.score} /> : null}
        <LinesRow table={table} state={state} player={sound.player} onNewLine={() => table.makeLine()} />
      </div>
      <TableNotices table={table} room={room} state={state} />
      <div className={`${styles.paper ?? ''} paper`}>
        <MovedNote singing={singing} shown={state.view === 'ribbons' ? 'sounding' : 'written'} />
        {state.view === 'ribbons' ? (
          <RibbonsPaper state={state} table={table} sound={sound} singing={singing} />
        ) : (
          <TablePaper table={table} state={state} sound={sound} musicXml={musicXml} onEye={toggle} onSheet={setSheet} />
        )}
      </div>
      {open !== null && openLine !== undefined ? (
        <LineSheet
          key={openLine.id}
          table={table}
          state={state}
          player={sound.player}
          line={openLine}
          gap={open.gap}
          onClose={close}
        />
      ) : null}
      <TableDock
        state={state}
        desk={desk}
        singing={singing}
        onReveal={(bar) => sheet?.reveal(bar.id)}
        onExcerpt={takeExcerpt}
        onKeys={showKeys}
        takeOut={takeOut}
      />
      <KeysSlip isOpen={showsKeys} onClose={() => setShowsKeys(false)} />
    </PageFrame>
  );
}
