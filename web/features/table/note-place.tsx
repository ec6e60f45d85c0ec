import { useMemo } from 'react';
import { fingeringsOf, type Fingering } from '../../../music/index.ts';
import { noteWords } from '../../engraving/place-words.ts';
import styles from './table.module.css';
import { notesAtHand } from './table-picking.ts';
import type { TableState } from './table-state.ts';

interface NotePlaceProps {
  readonly state: TableState;
}

/** Where a note lies on the strings: `string 2, fret 3`, with a word before it where that is only proposed. */
export function stringWords({ string, fret, isProposed }: Fingering): string {
  const place = `string ${string}, ${fret === 0 ? 'open' : `fret ${fret}`}`;
  return isProposed ? `proposed: ${place}` : place;
}

/** The note at hand in words, with its string and fret; of several, how many. */
export function NotePlace({ state }: NotePlaceProps) {
  const [id, ...others] = notesAtHand(state);
  if (others.length > 0) return <p className={`${styles.notePlace ?? ''} numbers`}>{others.length + 1} notes chosen</p>;
  const note = id === undefined ? undefined : state.score.notes.find((candidate) => candidate.id === id);
  return note === undefined ? null : <Told state={state} note={note} />;
}

function Told({ state, note }: NotePlaceProps & { readonly note: TableState['score']['notes'][number] }) {
  const { score, room } = state;
  const places = useMemo(() => fingeringsOf(score).value, [score]);
  const place = places.get(note.id);
  const ids = room.split.marks.get(note.id)?.lines ?? [];
  const lines = room.split.lines.filter((line) => ids.includes(line.id));
  return (
    <p className={`${styles.notePlace ?? ''} numbers`}>
      {noteWords(score, note, lines)}
      {place === undefined ? null : <span className={styles.quiet}> · {stringWords(place)}</span>}
    </p>
  );
}
