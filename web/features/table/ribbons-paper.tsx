import { useCallback, useEffect, useMemo, useRef } from 'react';
import { Dialog, DialogTrigger, Popover } from 'react-aria-components';
import { activeLines, performLines, type Excerpt, type Line, type NoteId, audibleLines } from '../../../music/index.ts';
import type { RibbonInk } from '../../engraving/ribbons/note-ink.tsx';
import { wholeExcerpt } from '../../engraving/sheet-place.ts';
import { labelsOf } from '../../engraving/ribbons/note-labels.ts';
import { RibbonSheet } from '../../engraving/ribbons/ribbon-sheet.tsx';
import { excerptWords } from '../../lib/excerpt-words.ts';
import { useOwnSinging } from '../../lib/own-singing.ts';
import { usePlayer } from '../../playback/react.ts';
import type { Singing } from '../../playback/use-singing.ts';
import { BareButton } from '../../ui/buttons.tsx';
import { dyePaint } from '../../ui/dye.ts';
import { Eye } from '../../ui/eye.tsx';
import { LineSound } from './line-sheet.tsx';
import styles from './table.module.css';
import type { Table } from './table.ts';
import type { TableSound } from './table-sound.ts';
import type { TableState } from './table-state.ts';

interface RibbonsPaperProps {
  readonly state: TableState;
  readonly table: Table;
  readonly sound: TableSound;
  readonly singing: Singing;
}

/** The bars as cloth; from an eye hangs the slip with its line's sound. */
export function RibbonsPaper({ state, table, sound, singing }: RibbonsPaperProps) {
  const [own] = useOwnSinging();
  const labels = useMemo(() => labelsOf(singing.score, own.labels), [singing.score, own.labels]);
  const { score, room, lifted, cursor } = state;
  const ink = useInk(state);
  const host = useRef<HTMLDivElement>(null);
  useEffect(() => bringIntoView(host.current, cursor), [cursor]);
  const excerpt: Excerpt | null = useMemo(() => state.excerpt ?? wholeExcerpt(score), [state.excerpt, score]);
  const strengthOf = useMemo(() => {
    const strengths = new Map(performLines(score, room.split).events.map((event) => [event.note, event.strength]));
    return (note: NoteId): number => strengths.get(note) ?? 0.5;
  }, [score, room.split]);
  const tag = useCallback(
    (line: Line) => <RibbonEye line={line} state={state} table={table} sound={sound} />,
    [state, table, sound],
  );
  const onNote = useCallback(
    (note: NoteId) => {
      table.setCursor(note);
      table.pick(note, { adds: false, extends: false });
    },
    [table],
  );
  if (excerpt === null) return null;
  return (
    <div ref={host}>
      <RibbonSheet
        score={singing.score}
        labels={labels}
        {...(singing.sung === undefined ? {} : { sung: singing.sung })}
        split={room.split}
        excerpt={excerpt}
        strengthOf={strengthOf}
        lifted={lifted}
        ink={ink}
        place={sound.player.position}
        onNote={onNote}
        tag={tag}
        label={`Ribbons of ${excerptWords(score, excerpt)}`}
      />
    </div>
  );
}

function useInk({ counts, suggestion, selected, cursor }: TableState): RibbonInk {
  return useMemo(
    () => ({
      unsure: new Set(counts.unsure),
      follows: suggestion?.isFolded === false ? suggestion.follows : new Set(),
      chosen: selected,
      cursor,
    }),
    [counts.unsure, suggestion, selected, cursor],
  );
}

/** What must stay free above and below a note that is looked at: the head of the page and its foot. **Units** CSS pixels. */
const [freeAbove, freeBelow] = [60, 220];

function bringIntoView(host: HTMLElement | null, note: NoteId | null): void {
  const drawn = note === null ? null : host?.querySelector(`[data-note="${CSS.escape(note)}"]`);
  if (drawn === null || drawn === undefined) return;
  const { top, bottom } = drawn.getBoundingClientRect();
  if (top < freeAbove || bottom > window.innerHeight - freeBelow) drawn.scrollIntoView({ block: 'center' });
}

interface RibbonEyeProps extends Omit<RibbonsPaperProps, 'singing'> {
  readonly line: Line;
}

/** A line's eye beside its ribbon. */
function RibbonEye({ line, state, table, sound: { player } }: RibbonEyeProps) {
  const { settings } = usePlayer(player);
  const ids = activeLines(state.room.split).map(({ id }) => id);
  const isSilent = !audibleLines(ids, settings).includes(line.id);
  const isFaint = state.lifted.size > 0 && !state.lifted.has(line.id);
  return (
    <DialogTrigger>
      <BareButton aria-label={`${line.name}: ${isSilent ? 'silent' : 'heard'}`}>
        <Eye line={line} tone={isSilent ? 'silent' : isFaint ? 'faint' : 'plain'} />
      </BareButton>
      <Popover placement="right top" offset={2} className={styles.popover ?? ''}>
        <Dialog
          className={styles.popoverBody ?? ''}
          aria-label={`The sound of ${line.name}`}
          style={{ borderTop: `4px solid ${dyePaint[line.dye].colour}` }}
        >
          <h3>{line.name}</h3>
          <LineSound table={table} state={state} player={player} line={line} />
        </Dialog>
      </Popover>
    </DialogTrigger>
  );
}
