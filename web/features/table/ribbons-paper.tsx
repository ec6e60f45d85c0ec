import { useCallback, useMemo } from 'react';
import { performLines, type Excerpt, type Line, type NoteId } from '../../../music/index.ts';
import { RibbonSheet } from '../../engraving/ribbons/ribbon-sheet.tsx';
import { excerptWords } from '../../lib/excerpt-words.ts';
import { BareButton } from '../../ui/buttons.tsx';
import { Eye } from '../../ui/eye.tsx';
import type { Table } from './table.ts';
import type { TableSound } from './table-sound.ts';
import type { TableState } from './table-state.ts';
import { wholeExcerpt } from './table-paper.tsx';

interface RibbonsPaperProps {
  readonly state: TableState;
  readonly table: Table;
  readonly sound: TableSound;
}

/** The bars as cloth; an eye lifts its line. */
export function RibbonsPaper({ state, table, sound }: RibbonsPaperProps) {
  const { score, room, lifted } = state;
  const excerpt: Excerpt | null = useMemo(() => state.excerpt ?? wholeExcerpt(score), [state.excerpt, score]);
  const strengthOf = useMemo(() => {
    const strengths = new Map(performLines(score, room.split).events.map((event) => [event.note, event.strength]));
    return (note: NoteId): number => strengths.get(note) ?? 0.5;
  }, [score, room.split]);
  const tag = useCallback(
    (line: Line) => (
      <BareButton
        aria-label={`Lift ${line.name}`}
        aria-pressed={lifted.has(line.id)}
        onPress={() => table.lift(line.id)}
      >
        <Eye line={line} tone={lifted.size > 0 && !lifted.has(line.id) ? 'faint' : 'plain'} />
      </BareButton>
    ),
    [table, lifted],
  );
  const onNote = useCallback((note: NoteId) => table.setCursor(note), [table]);
  if (excerpt === null) return null;
  return (
    <RibbonSheet
      score={score}
      split={room.split}
      excerpt={excerpt}
      strengthOf={strengthOf}
      lifted={lifted}
      place={sound.player.position}
      onNote={onNote}
      tag={tag}
      label={`Ribbons of ${excerptWords(score, excerpt)}`}
    />
  );
}
