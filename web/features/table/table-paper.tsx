import { useEffect, useMemo, useRef, useState } from 'react';
import type { LineId, Split } from '../../../music/index.ts';
import { barsOfExcerpt, wholeExcerpt } from '../../engraving/sheet-place.ts';
import { Sheet, type SheetHandlers } from '../../engraving/sheet.ts';
import { sheetSource } from '../../engraving/sheet-source.ts';
import type { SheetSource } from '../../engraving/strip.ts';
import { writtenSource } from '../../engraving/written-source.ts';
import type { Table } from './table.ts';
import type { TableSound } from './table-sound.ts';
import type { TableState } from './table-state.ts';
import { useSettled } from './use-settled.ts';

interface TablePaperProps {
  readonly table: Table;
  readonly state: TableState;
  readonly sound: TableSound;
  readonly musicXml: string;
  readonly onEye: (line: LineId, strip: HTMLElement) => void;
  readonly onSheet: (sheet: Sheet | null) => void;
}

const settleMs = 350;

function useSource(musicXml: string, state: TableState): SheetSource {
  const { score, room, excerpt } = state;
  const isWritten = state.view === 'writtenOut';
  const plain = useMemo(() => sheetSource(musicXml, score), [musicXml, score]);
  const settled: Split = useSettled(room.split, settleMs, room.isLoaded);
  const written = useMemo(() => {
    const whole = isWritten ? (excerpt ?? wholeExcerpt(score)) : null;
    return whole === null
      ? null
      : writtenSource({ musicXml, score, split: settled, excerpt: whole, lengths: 'next', withOriginal: true });
  }, [isWritten, musicXml, score, settled, excerpt]);
  return isWritten ? (written ?? plain) : plain;
}

/** The paper with the score on it: stacked, threaded or with the lines written out below. It paints without rendering. */
export function TablePaper({ table, state, sound, musicXml, onEye, onSheet }: TablePaperProps) {
  const host = useRef<HTMLDivElement | null>(null);
  const [sheet, setSheet] = useState<Sheet | null>(null);
  const source = useSource(musicXml, state);
  const shown = useMemo(
    () => (state.view === 'writtenOut' ? barsOfExcerpt(state.score, state.excerpt) : null),
    [state.view, state.score, state.excerpt],
  );
  useEffect(() => {
    if (host.current === null) return;
    const made = new Sheet(host.current, handlersOf(table, sound, onEye));
    setSheet(made);
    onSheet(made);
    made.follow(sound.player.position);
    return () => {
      table.attach(null);
      onSheet(null);
      made.destroy();
    };
  }, [table, sound, onEye, onSheet]);
  useEffect(() => {
    if (sheet === null) return;
    const place = sheet.visibleBars()[0];
    sheet.show(source, shown ?? {});
    table.attach(sheet);
    if (place !== undefined && sheet.element.getBoundingClientRect().top < 0) sheet.reveal(place.id);
  }, [sheet, source, shown, table]);
  return <div ref={host} data-sheet="" />;
}

const handlersOf = (
  table: Table,
  sound: TableSound,
  onEye: (line: LineId, strip: HTMLElement) => void,
): SheetHandlers => ({
  onNote: (note, picking) => table.pick(note, picking),
  onTwice: (note) => sound.playFrom(note),
  onStroke: (notes) => table.stroke(notes),
  onStrokeEnd: () => table.strokeEnd(),
  onLasso: (notes, adds) => table.loop(notes, adds),
  onCursor: (note) => table.setCursor(note),
  onEye,
  onTrouble: (error) => table.tellTrouble(error),
});
