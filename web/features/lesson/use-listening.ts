import { useEffect, useMemo, useState } from 'react';
import type { LessonStep, PathStep } from '../../../contract/index.ts';
import {
  activeLines,
  performLines,
  ticksOfExcerpt,
  type LineId,
  type NoteId,
  type Performance,
  type TickRange,
} from '../../../music/index.ts';
import type { ArrangedMusic } from '../../lib/arranged-music.ts';
import type { PlayerSnapshot } from '../../playback/player-snapshot.ts';
import { Player } from '../../playback/player.ts';
import { usePlayer } from '../../playback/react.ts';
import { planOf, revealing } from './path-plan.ts';

export type ListenStep = Extract<LessonStep, { kind: 'listen' }>;
export type View = PathStep['view'];

/** Everything that one listening step of a lesson can do and show. */
export interface Listening {
  readonly player: Player;
  readonly snapshot: PlayerSnapshot;
  readonly performance: Performance;
  readonly range: TickRange;
  readonly lines: readonly LineId[];
  readonly chosen: PathStep | null;
  readonly view: View;
  readonly isAgain: boolean;
  readonly isRevealed: boolean;
  readonly isPlaying: boolean;
  readonly strengthOf: (note: NoteId) => number;
  readonly choose: (step: PathStep) => void;
  readonly look: (view: View) => void;
  readonly setAgain: (again: boolean) => void;
  readonly playOrStop: (fromTicks?: number) => void;
  /** Does with a note what touching one does. */
  readonly touch: (note: NoteId) => void;
  readonly reveal: () => void;
}

/** The performance of an excerpt; null where its bars are gone. */
export function usePerformance(
  music: ArrangedMusic,
  step: ListenStep,
): { readonly performance: Performance; readonly range: TickRange } | null {
  return useMemo(() => {
    const range = ticksOfExcerpt(music.score, step.excerpt);
    return range === null ? null : { performance: performLines(music.score, music.split, { range }), range };
  }, [music, step.excerpt]);
}

/** A player for one performance, let go with the component. */
function usePlayerOf(performance: Performance, ratePercent: number): Player {
  const [player] = useState(() => {
    const made = new Player();
    made.setTouch('playOn');
    return made;
  });
  useEffect(() => {
    player.load(performance);
    return () => void player.close();
  }, [player, performance]);
  useEffect(() => player.setRate(ratePercent), [player, ratePercent]);
  return player;
}

function strengths(performance: Performance): (note: NoteId) => number {
  const ofNote = new Map(performance.events.map((event) => [event.note, event.strength]));
  return (note) => ofNote.get(note) ?? 0.5;
}

/** What the player is told about the chosen step and whether it goes round. */
function usePlan(
  player: Player,
  chosen: PathStep | null,
  again: boolean,
  lines: readonly LineId[],
  range: TickRange,
): void {
  useEffect(() => {
    const plan = chosen === null ? null : planOf(chosen, { again: false, lines });
    player.setMix(plan?.settings ?? new Map());
    player.bringForward(plan?.forward ?? null);
  }, [player, chosen, lines]);
  useEffect(() => {
    const programme = chosen === null ? null : planOf(chosen, { again, lines }).programme;
    player.setProgramme(programme);
    player.setLoop(again && programme === null ? range : null);
  }, [player, chosen, again, lines, range]);
}

/** Does with a note what touching one does: from there on, alone, or with all that starts with it. */
function touchNote(player: Player, { score }: ArrangedMusic, note: NoteId, playFrom: (ticks?: number) => void): void {
  const at = score.notes.find(({ id }) => id === note)?.onsetTicks;
  const { touch } = player.getSnapshot();
  if (touch === 'playOn') playFrom(at);
  else if (touch === 'note') player.playNotes([note]);
  else
    player.playNotes(
      score.notes.filter(({ onsetTicks }) => onsetTicks === at).map(({ id }) => id),
      touch,
    );
}

/** Listening to one excerpt along its path. */
export function useListening(
  music: ArrangedMusic,
  step: ListenStep,
  made: { readonly performance: Performance; readonly range: TickRange },
): Listening {
  const { performance, range } = made;
  const player = usePlayerOf(performance, step.tempoPercent);
  const snapshot = usePlayer(player);
  const lines = useMemo(() => activeLines(music.split).map(({ id }) => id), [music]);
  const [chosen, setChosen] = useState<PathStep | null>(step.path[0] ?? null);
  const [view, setView] = useState<View>(step.path[0]?.view ?? 'ribbons');
  const [isAgain, setAgain] = useState(false);
  const [isRevealed, setRevealed] = useState(false);
  usePlan(player, chosen, isAgain, lines, range);
  const isPlaying = snapshot.status === 'playing' || snapshot.status === 'starting' || snapshot.status === 'waiting';
  const strengthOf = useMemo(() => strengths(performance), [performance]);
  const playOrStop = (fromTicks?: number): void => {
    if (isPlaying && fromTicks === undefined) {
      player.stop();
      return;
    }
    if (chosen?.kind === 'reveal') player.setProgramme(planOf(chosen, { again: false, lines }).programme);
    player.play(fromTicks);
  };
  return {
    player,
    snapshot,
    performance,
    range,
    lines,
    chosen,
    view,
    isAgain,
    isRevealed,
    isPlaying,
    strengthOf,
    setAgain,
    choose: (next) => {
      player.stop();
      setChosen(next);
      setView(next.view);
      setRevealed(false);
    },
    look: setView,
    playOrStop,
    touch: (note) => touchNote(player, music, note, playOrStop),
    reveal: () => {
      const [line] = chosen?.lines ?? [];
      if (line === undefined) return;
      setRevealed(true);
      player.stop();
      player.setProgramme(revealing(line));
      player.play();
    },
  };
}
