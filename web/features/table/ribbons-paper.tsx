import { useCallback, useEffect, useMemo, useRef } from 'react';
import { DialogTrigger } from 'react-aria-components';
import { activeLines, performLines, type Excerpt, type Line, type NoteId } from '../../../music/index.ts';
import type { RibbonInk } from '../../engraving/ribbons/note-ink.tsx';
import { wholeExcerpt } from '../../engraving/sheet-place.ts';
import { labelsOf } from '../../engraving/ribbons/note-labels.ts';
import { RibbonSheet } from '../../engraving/ribbons/ribbon-sheet.tsx';
import { excerptWords } from '../../lib/excerpt-words.ts';
import { useOwnSinging } from '../../lib/own-singing.ts';
import { lineTones } from '../../playback/line-tones.ts';
import { usePlayer } from '../../playback/react.ts';
import type { Singing } from '../../playback/use-singing.ts';
import { BareButton } from '../../ui/buttons.tsx';
import { heardAs } from '../../ui/eye-tone.ts';
import { Eye } from '../../ui/eye.tsx';
import { HangingSlip } from '../../ui/hanging-slip.tsx';
import { LineSound } from './line-sheet.tsx';
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
  const [{ labels: kind, verse }] = useOwnSinging();
  const labels = useMemo(() => labelsOf(singing.score, { labels: kind, verse }), [singing.score, kind, verse]);
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
  const ids = activeLines(state.room.split).map(({ id }) => id);
  const tone = lineTones(ids, usePlayer(player)).get(line.id) ?? 'plain';
  return (
    <DialogTrigger>
      <BareButton aria-label={`${line.name}: ${heardAs[tone]}`}>
        <Eye line={line} tone={tone} />
      </BareButton>
      <HangingSlip title={line.name} label={`The sound of ${line.name}`} placement="right top" dye={line.dye}>
        <LineSound table={table} state={state} player={player} line={line} />
      </HangingSlip>
    </DialogTrigger>
  );
}
