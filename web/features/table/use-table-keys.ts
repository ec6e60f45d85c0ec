import { useLayoutEffect } from 'react';
import { activeLines, linesOfNote, plainSetting, type LineId } from '../../../music/index.ts';
import type { Desk } from './desk.ts';
import { hearNextMix } from './table-mixes.ts';
import { tableKeyOf, type TableKey } from './table-keys.ts';
import type { TableState } from './table-state.ts';

/** Listens for the table's keys wherever one is on the page, except where text is written or a slip is open: from the moment in which the table is seen, since a key may come before the page has rested. */
export function useTableKeys(desk: Desk, openLine: LineId | null, onHelp: () => void, onLetGo: () => void): void {
  useLayoutEffect(() => {
    const listen = (event: KeyboardEvent) => {
      if (event.defaultPrevented || isTaken(event)) return;
      const key = tableKeyOf(event);
      if (key === null) return;
      event.preventDefault();
      if (key.kind === 'help') onHelp();
      else doKey(desk, key, openLine);
      if (key.kind === 'letGo') onLetGo();
    };
    document.addEventListener('keydown', listen);
    return () => document.removeEventListener('keydown', listen);
  }, [desk, openLine, onHelp, onLetGo]);
}

function isTaken(event: KeyboardEvent): boolean {
  const target = event.target instanceof Element ? event.target : null;
  if (target?.closest('input, textarea, select, [contenteditable], [role="dialog"]') !== null && target !== null)
    return true;
  const pressesButton = event.key === ' ' && target?.closest('button, a, [role="slider"]') !== null && target !== null;
  return pressesButton;
}

function doKey(desk: Desk, key: TableKey, openLine: LineId | null): void {
  const { table, sound } = desk;
  const state = table.getSnapshot();
  const line = openLine ?? lineAtHand(state);
  switch (key.kind) {
    case 'line':
      table.putOnNth(key.index, key.adds);
      break;
    case 'unassign':
      table.takeOff();
      break;
    case 'lift':
    case 'solo':
    case 'mute':
    case 'forward':
      if (line !== undefined) doWithLine(desk, key.kind, line);
      break;
    case 'nextMix':
      hearNextMix(desk);
      break;
    case 'play':
      sound.playOrStop();
      break;
    case 'playSelection':
      sound.playSelection(state);
      break;
    case 'playFrom':
      if (state.cursor !== null) sound.playFrom(state.cursor);
      break;
    case 'stroke':
    case 'spread':
      if (state.cursor !== null) sound.touchSlice(state.cursor, key.kind);
      break;
    case 'nextOpen':
      table.walkOn();
      break;
    case 'accept':
      table.accept();
      break;
    case 'follow':
      table.suggesting.follow();
      break;
    case 'same':
      table.suggesting.doSame();
      break;
    case 'nextFinding':
      table.walkFindings();
      break;
    case 'undo':
    case 'redo':
      table[key.kind]();
      break;
    case 'letGo':
      table.letGo();
      break;
    case 'help':
      break;
  }
}

/** The line that a key without a number means: the chosen one, else that of the note under the cursor. */
function lineAtHand({ chosen, cursor, room }: TableState): LineId | undefined {
  if (chosen !== null) return chosen;
  return cursor === null ? activeLines(room.split)[0]?.id : linesOfNote(room.split, cursor)[0];
}

function doWithLine(
  { table, sound: { player } }: Desk,
  deed: 'lift' | 'solo' | 'mute' | 'forward',
  line: LineId,
): void {
  const { settings, forward } = player.getSnapshot();
  const { isSolo, isMuted } = settings.get(line) ?? plainSetting;
  switch (deed) {
    case 'lift':
      table.lift(line);
      break;
    case 'solo':
      player.setLine(line, { isSolo: !isSolo });
      break;
    case 'mute':
      player.setLine(line, { isMuted: !isMuted });
      break;
    case 'forward':
      player.bringForward(forward === line ? null : line);
      break;
  }
}
