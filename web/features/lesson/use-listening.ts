import { useEffect, useMemo, useState } from 'react';
import type { LessonStep, PathStep, Playing } from '../../../contract/index.ts';
import {
  activeLines,
  performLines,
  sungAlong,
  ticksOfExcerpt,
  unfoldedWithin,
  type Instrument,
  type LineId,
  type NoteId,
  type Performance,
  type SingAlong,
  type TickRange,
  instrumentsOf,
} from '../../../music/index.ts';
import type { ArrangedMusic } from '../../lib/arranged-music.ts';
import type { HeardMix } from '../../playback/named-mixes.ts';
import type { PlayerSnapshot } from '../../playback/player-snapshot.ts';
import { Player } from '../../playback/player.ts';
import { usePlayer } from '../../playback/react.ts';
import { useSinging, type Singing } from '../../playback/use-singing.ts';
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
  /** Lines that the listener has lifted away from the others. */
  readonly lifted: ReadonlySet<LineId>;
  readonly isAgain: boolean;
  readonly isRevealed: boolean;
  readonly isPlaying: boolean;
  readonly strengthOf: (note: NoteId) => number;
  readonly singing: Singing;
  /** Whether repeats are followed; null where the excerpt has none. */
  readonly repeats: { readonly isFollowed: boolean; readonly onFollow: (isFollowed: boolean) => void } | null;
  readonly choose: (step: PathStep) => void;
  readonly look: (view: View) => void;
  readonly lift: (line: LineId) => void;
  /** Lets a mix be heard and seen, on the chosen step too. */
  readonly hear: (mix: HeardMix) => void;
  readonly setAgain: (again: boolean) => void;
  readonly playOrStop: (fromTicks?: number) => void;
  /** Does with a note what touching one does. */
  readonly touch: (note: NoteId) => void;
  readonly reveal: () => void;
}

/** The music of an excerpt, and how it is played. */
export interface Heard {
  readonly music: ArrangedMusic;
  readonly step: ListenStep;
  readonly range: TickRange;
  readonly playing: Playing;
}

/** The stretch of an excerpt; null where its bars are gone. */
export const useRange = ({ score }: ArrangedMusic, { excerpt }: ListenStep): TickRange | null =>
  useMemo(() => ticksOfExcerpt(score, excerpt), [score, excerpt]);

/** A player, let go with the component. */
function useOwnPlayer(ratePercent: number): Player {
  const [player] = useState(() => {
    const made = new Player();
    made.setTouch('playOn');
    return made;
  });
  useEffect(() => () => void player.close(), [player]);
  useEffect(() => player.setRate(ratePercent), [player, ratePercent]);
  return player;
}

/** The instruments that are chosen: the same map for as long as they are the same. */
function useInstruments(settings: PlayerSnapshot['settings']): ReadonlyMap<LineId, Instrument> {
  const text = JSON.stringify([...instrumentsOf(settings)]);
  return useMemo(() => new Map(JSON.parse(text) as [LineId, Instrument][]), [text]);
}

/** The stretches that an excerpt plays, and the choice between its repeats and everything once as it is printed. */
function useRepeats({ music, range }: Heard) {
  const [isFollowed, onFollow] = useState(true);
  const unfolded = useMemo(() => unfoldedWithin(music.score, range), [music, range]);
  const ranges = useMemo(() => (isFollowed ? unfolded : [range]), [isFollowed, unfolded, range]);
  return { ranges, repeats: unfolded.length > 1 ? { isFollowed, onFollow } : null };
}

/** The performance of stretches with the instruments that are chosen and as it is sung along with, in the player's hands. */
function usePerformance(
  player: Player,
  { settings }: PlayerSnapshot,
  { music, ranges, playing }: Pick<Heard, 'music' | 'playing'> & { readonly ranges: readonly TickRange[] },
  along: SingAlong,
): Performance {
  const instruments = useInstruments(settings);
  const played = useMemo(
    () => performLines(music.score, music.split, { ...playing, ranges, instruments }),
    [music, ranges, playing, instruments],
  );
  const performance = useMemo(() => sungAlong(played, music.score, along), [played, music, along]);
  useEffect(() => player.load(performance), [player, performance]);
  return performance;
}

function strengths(performance: Performance): (note: NoteId) => number {
  const ofNote = new Map(performance.events.map((event) => [event.note, event.strength]));
  return (note) => ofNote.get(note) ?? 0.5;
}

/** What the player is told about the chosen step and whether it goes round. */
function usePlan(player: Player, chosen: PathStep | null, again: boolean, lines: readonly LineId[]): void {
  useEffect(() => {
    const plan = chosen === null ? null : planOf(chosen, { again: false, lines });
    player.setMix(plan?.settings ?? new Map());
    player.bringForward(plan?.forward ?? null);
  }, [player, chosen, lines]);
  useEffect(() => {
    const programme = chosen === null ? null : planOf(chosen, { again, lines }).programme;
    player.setProgramme(programme);
    player.setLoop(again && programme === null ? 'all' : null);
  }, [player, chosen, again, lines]);
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

function hearMix(player: Player, mix: HeardMix, lift: (lines: ReadonlySet<LineId>) => void): void {
  player.setMix(mix.settings);
  player.bringForward(mix.forward);
  lift(mix.lifted);
}

function playRevealed(player: Player, line: LineId): void {
  player.stop();
  player.setProgramme(revealing(line));
  player.play();
}

function toggled(lines: ReadonlySet<LineId>, line: LineId): ReadonlySet<LineId> {
  const next = new Set(lines);
  if (!next.delete(line)) next.add(line);
  return next;
}

/** Listening to one excerpt along its path. */
export function useListening(heard: Heard): Listening {
  const { music, step, range } = heard;
  const player = useOwnPlayer(step.tempoPercent);
  const snapshot = usePlayer(player);
  const singing = useSinging({ score: music.score, split: music.split, range, player });
  const { ranges, repeats } = useRepeats(heard);
  const performance = usePerformance(player, snapshot, { ...heard, ranges }, singing.along);
  const lines = useMemo(() => activeLines(music.split).map(({ id }) => id), [music]);
  const [chosen, setChosen] = useState<PathStep | null>(step.path[0] ?? null);
  const [view, setView] = useState<View>(step.path[0]?.view ?? 'ribbons');
  const [lifted, setLifted] = useState<ReadonlySet<LineId>>(new Set());
  const [isAgain, setAgain] = useState(false);
  const [isRevealed, setRevealed] = useState(false);
  usePlan(player, chosen, isAgain, lines);
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
    lifted,
    isAgain,
    isRevealed,
    isPlaying,
    strengthOf,
    singing,
    repeats,
    setAgain,
    lift: (line) => setLifted((present) => toggled(present, line)),
    hear: (mix) => hearMix(player, mix, setLifted),
    choose: (next) => {
      player.stop();
      setLifted(new Set());
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
      playRevealed(player, line);
    },
  };
}
