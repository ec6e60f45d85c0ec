import { useEffect, useMemo, useState } from 'react';
import {
  activeLines,
  droneMidi,
  keyAt,
  midiOf,
  movedNotes,
  pitchRangeOf,
  singingMove,
  sungNotes,
  tonicOf,
  unmoved,
  type Line,
  type LineId,
  type Score,
  type SingAlong,
  type SingingMove,
  type Split,
  type TickRange,
} from '../../music/index.ts';
import { useOwnSinging } from '../lib/own-singing.ts';
import type { Player } from './player.ts';
import { usePlayer } from './react.ts';

/** The tone that a drone holds. */
type DroneTone = 'tonic' | 'first';

/** What is sung along with. */
interface SungMusic {
  readonly score: Score;
  readonly split: Pick<Split, 'lines' | 'marks'>;
  readonly range: TickRange;
  readonly player: Player;
}

/** Singing along with one line: what is heard and shown otherwise for it, and what can be asked for. */
export interface Singing {
  /** The lines that have something to sing. */
  readonly lines: readonly Line[];
  readonly line: Line | null;
  /** For the performance. */
  readonly along: SingAlong;
  /** The line that is hummed in another octave than it is written; undefined where none is. */
  readonly sung: { readonly line: LineId; readonly octaves: number } | undefined;
  /** The score as it sounds now, for ribbons and their labels. */
  readonly score: Score;
  readonly move: SingingMove;
  /** Whether the music is to be moved to the voice that was told. */
  readonly wantsMove: boolean;
  readonly drone: DroneTone | null;
  readonly sing: (line: LineId | null) => void;
  readonly setWantsMove: (wants: boolean) => void;
  readonly setDrone: (tone: DroneTone | null) => void;
  /** Sounds the first note to sing; null where there is none. */
  readonly soundFirst: (() => void) | null;
}

const octaveSemitones = 12;
/** Where a drone lies while no line is sung. */
const usualLowMidi = 57;
const firstNote = { strength: 0.6, seconds: 1.6 } as const;

/** The tones that can be asked for, moved as the singing is. */
function tonesOf(notes: ReturnType<typeof sungNotes>, { score, range }: SungMusic, move: SingingMove) {
  const shift = move.octaves * octaveSemitones + move.semitones;
  const first = notes[0];
  const lowest = pitchRangeOf(notes)?.lowMidi;
  const tonic = midiOf({ ...tonicOf(keyAt(score, range.startTicks)), octave: 4 }) + move.semitones;
  return {
    tonic: droneMidi(tonic, lowest === undefined ? usualLowMidi : lowest + shift),
    first: first === undefined ? null : first.sound.soundingMidi + shift,
  };
}

/** A drone of a player that follows the tone it is to hold. */
function useDrone(player: Player, midis: Readonly<Record<DroneTone, number | null>>) {
  const [tone, setTone] = useState<DroneTone>('tonic');
  const { droneMidi: held } = usePlayer(player);
  const wanted = midis[tone];
  useEffect(() => {
    if (held !== null && held !== wanted) player.setDrone(wanted);
  }, [player, held, wanted]);
  return {
    drone: held === null ? null : tone,
    setDrone: (next: DroneTone | null) => {
      if (next !== null) setTone(next);
      player.setDrone(next === null ? null : midis[next]);
    },
  };
}

/** Singing along with a stretch of music, as the person who is signed in likes to. */
export function useSinging(music: SungMusic): Singing {
  const { score, split, range, player } = music;
  const [{ voice }] = useOwnSinging();
  const [chosen, setChosen] = useState<LineId | null>(null);
  const [wantsMove, setWantsMove] = useState(true);
  const lines = useMemo(
    () => activeLines(split).filter(({ id }) => sungNotes(score, split, id, range).length > 0),
    [score, split, range],
  );
  const line = lines.find(({ id }) => id === chosen) ?? null;
  const lineId = line?.id ?? null;
  const notes = useMemo(
    () => (lineId === null ? [] : sungNotes(score, split, lineId, range)),
    [score, split, lineId, range],
  );
  const move = useMemo(() => {
    const sung = pitchRangeOf(notes);
    return wantsMove && voice !== null && sung !== null ? singingMove(sung, voice) : unmoved;
  }, [notes, voice, wantsMove]);
  const { octaves, semitones } = move;
  const tones = tonesOf(notes, music, move);
  const { first } = tones;
  return {
    lines,
    line,
    along: useMemo(() => ({ line: lineId, octaves, semitones }), [lineId, octaves, semitones]),
    sung: useMemo(() => (lineId === null || octaves === 0 ? undefined : { line: lineId, octaves }), [lineId, octaves]),
    score: useMemo(() => (semitones === 0 ? score : { ...score, ...movedNotes(score, semitones) }), [score, semitones]),
    move,
    wantsMove,
    ...useDrone(player, tones),
    sing: setChosen,
    setWantsMove,
    soundFirst:
      first === null
        ? null
        : () => {
            const voiceOf = { kind: 'pitched', instrument: 'hum', midi: first, stroke: 'pluck' } as const;
            player.playVoice(voiceOf, firstNote.strength, firstNote.seconds);
          },
  };
}
