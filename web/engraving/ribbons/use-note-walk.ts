import { useMemo, useState, type KeyboardEvent } from 'react';
import { noteId, lineId, type LineId, type NoteId } from '../../../music/index.ts';
import type { Sheet } from './layout.ts';
import { stopAfterKey, stopsOf } from './note-walk.ts';

/** How the notes of a sheet are reached by keyboard: one stop for Tab, arrows from there. */
export interface NoteWalk {
  readonly current: NoteId | null;
  readonly onFocus: (note: NoteId) => void;
  readonly onKeyDown: (event: KeyboardEvent<SVGSVGElement>) => void;
  readonly onPress: (note: NoteId, startTicks: number) => void;
}

/** Walks along lines with left and right, between lines with up and down; Enter and Space press a note. */
export function useNoteWalk(
  sheet: Sheet | null,
  onNote: ((note: NoteId, startTicks: number) => void) | undefined,
): NoteWalk {
  const stops = useMemo(() => (sheet === null ? [] : stopsOf(sheet)), [sheet]);
  const lines = useMemo<readonly LineId[]>(
    () => (sheet === null ? [] : [...new Set(sheet.rows.flatMap((row) => row.tags.map(({ line }) => line.id)))]),
    [sheet],
  );
  const [focused, setFocused] = useState<NoteId | null>(null);
  const isThere = stops.some((stop) => stop.note === focused);
  const onKeyDown = (event: KeyboardEvent<SVGSVGElement>) => {
    const at = (event.target as Element).closest<SVGElement>('[data-note]');
    const from = stops.find(
      (stop) => stop.note === noteId(at?.dataset['note'] ?? '') && stop.line === lineId(at?.dataset['line'] ?? ''),
    );
    if (from === undefined) return;
    if (event.key === 'Enter' || event.key === ' ') {
      event.preventDefault();
      onNote?.(from.note, from.startTicks);
      return;
    }
    const next = stopAfterKey(stops, lines, from, event.key);
    if (next === null) return;
    event.preventDefault();
    event.currentTarget.querySelector<SVGElement>(`[data-note="${CSS.escape(next.note)}"]`)?.focus();
  };
  return {
    current: isThere ? focused : (stops[0]?.note ?? null),
    onFocus: setFocused,
    onKeyDown,
    onPress: (note, startTicks) => onNote?.(note, startTicks),
  };
}
