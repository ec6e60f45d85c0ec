import { activeLines, linesOfNote, type LineId } from '../../../music/index.ts';
import { WordButton } from '../../ui/buttons.tsx';
import { WordChoice } from '../../ui/word-choice.tsx';
import { notesAtHand } from './table-picking.ts';
import type { Table } from './table.ts';
import type { TableSound } from './table-sound.ts';
import type { TableState } from './table-state.ts';
import styles from './table.module.css';

interface NoteDeedsProps {
  readonly table: Table;
  readonly sound: TableSound;
  readonly state: TableState;
}

/** What can be done with the notes at hand beside putting them on a line: everything that keys do, for those who have none. */
export function NoteDeeds({ table, sound, state }: NoteDeedsProps) {
  const { selected, room, score } = state;
  const notes = notesAtHand(state);
  const first = score.notes.find(({ id }) => notes.includes(id))?.id;
  if (first === undefined) return null;
  const linesOf = notes.map((note) => linesOfNote(room.split, note));
  const isOnLine = linesOf.some((lines) => lines.length > 0);
  const others = activeLines(room.split).filter(({ id }) => linesOf.some((lines) => !lines.includes(id)));
  return (
    <div className={styles.acts} role="group" aria-label={notes.length === 1 ? 'The note' : 'The notes'}>
      {notes.length === 1 ? null : (
        <WordButton aria-keyshortcuts="P" onPress={() => sound.playSelection(state)}>
          Play them
        </WordButton>
      )}
      <WordButton aria-keyshortcuts="G" onPress={() => sound.playFrom(first)}>
        Play from here
      </WordButton>
      {isOnLine ? (
        <WordButton aria-keyshortcuts="0" onPress={() => table.takeOff()}>
          {notes.length === 1 ? 'Off its line' : 'Off their lines'}
        </WordButton>
      ) : null}
      {isOnLine && others.length > 0 ? (
        <WordChoice<LineId | null>
          label="Put on as well"
          value={null}
          options={others.map(({ id, name }) => ({ value: id, text: name }))}
          onChoose={(line) => (line === null ? undefined : table.putOn(line, true))}
        >
          Also on …
        </WordChoice>
      ) : null}
      {selected.size === 0 ? null : (
        <WordButton aria-keyshortcuts="Escape" onPress={() => table.letGo()}>
          Let go
        </WordButton>
      )}
    </div>
  );
}
