import type { BarId, NoteId } from '../basis/ids.ts';
import { playingOrder } from '../form/playing-order.ts';
import { assumedTempo } from '../score/assumed-tempo.ts';
import type { Bar, HitKind, Score, SoundingNote } from '../score/score.ts';
import type { TimeMap } from './performance.ts';
import { wholeOf } from './perform-lines.ts';
import { timeMapOf } from './time-map.ts';

/** One playing of one bar. **Units** seconds from the start of the first bar that is played. */
export interface TimelineBar {
  readonly bar: BarId;
  /** The bar's printed number. */
  readonly label: string;
  /** The bar's place in written order, from 1. */
  readonly ordinal: number;
  /** How many times this bar has come by now, from 1. */
  readonly pass: number;
  readonly startSeconds: number;
  readonly endSeconds: number;
}

/** One playing of one sounding note. **Units** seconds from the start of the first bar that is played. */
export interface TimelineNote {
  readonly note: NoteId;
  readonly bar: BarId;
  readonly pass: number;
  /** The pitch that sounds; null for a hit. */
  readonly midi: number | null;
  /** What is hit; null for a pitch. */
  readonly hit: HitKind | null;
  /** Where the note stands in the written score. */
  readonly onsetTicks: number;
  readonly onsetSeconds: number;
  /** The whole written length, ties included. */
  readonly lengthSeconds: number;
  /** The written length in each of its voices; one as a rule, two for a double-stemmed unison. */
  readonly voiceLengthSeconds: readonly number[];
}

/** What sounds when if every note is played exactly as it is written. */
export interface Timeline {
  /** In order of playing. */
  readonly bars: readonly TimelineBar[];
  /** In order of onset, then by written order. */
  readonly notes: readonly TimelineNote[];
  readonly lengthSeconds: number;
}

type TimedScore = Pick<Score, 'bars' | 'notes' | 'tempos' | 'ticksPerQuarter'>;

/** The seconds from the start of the written score, repeats not unfolded; the last tempo goes on beyond its end. */
function writtenClock(score: TimedScore): (ticks: number) => number {
  const whole = wholeOf(score);
  const hasOpening = score.tempos.some((mark) => mark.onsetTicks <= whole.startTicks && mark.quartersPerMinute > 0);
  const opening = { onsetTicks: whole.startTicks, quartersPerMinute: assumedTempo };
  const tempos = hasOpening ? score.tempos : [opening, ...score.tempos];
  const map = timeMapOf({ tempos, ticksPerQuarter: score.ticksPerQuarter }, [whole]);
  return (ticks) => secondsWithin(map, ticks);
}

function secondsWithin({ segments }: TimeMap, ticks: number): number {
  let low = 0;
  let high = segments.length - 1;
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if ((segments[middle]?.startTicks ?? Infinity) <= ticks) low = middle;
    else high = middle - 1;
  }
  const segment = segments[low];
  return segment === undefined ? 0 : segment.startSeconds + (ticks - segment.startTicks) * segment.secondsPerTick;
}

function notesByBar(score: TimedScore): ReadonlyMap<BarId, readonly SoundingNote[]> {
  const byBar = new Map<BarId, SoundingNote[]>(score.bars.map(({ id }) => [id, []]));
  for (const note of score.notes) byBar.get(note.bar)?.push(note);
  return byBar;
}

function noteAt(
  note: SoundingNote,
  bar: Bar,
  { pass, startSeconds }: TimelineBar,
  clock: ReturnType<typeof writtenClock>,
): TimelineNote {
  const onset = clock(note.onsetTicks);
  const lengthTicks = note.voiceLengthTicks ?? note.voices.map(() => note.lengthTicks);
  return {
    note: note.id,
    bar: bar.id,
    pass,
    midi: note.sound.kind === 'pitched' ? note.sound.soundingMidi : null,
    hit: note.sound.kind === 'hit' ? note.sound.hit : null,
    onsetTicks: note.onsetTicks,
    onsetSeconds: startSeconds + onset - clock(bar.onsetTicks),
    lengthSeconds: clock(note.onsetTicks + note.lengthTicks) - onset,
    voiceLengthSeconds: lengthTicks.map((ticks) => clock(note.onsetTicks + ticks) - onset),
  };
}

/**
 * A score played exactly as written: repeats and jumps unfolded, each tempo from its mark on and 120 quarter notes a minute
 * before the first; no swing, fermata, rit., arpeggio, ornament or other freedom, and no grace notes.
 */
export function timelineOf(score: TimedScore): Timeline {
  const clock = writtenClock(score);
  const written = new Map(score.bars.map((bar) => [bar.id, bar]));
  const notesOf = notesByBar(score);
  const bars: TimelineBar[] = [];
  const notes: TimelineNote[] = [];
  let seconds = 0;
  for (const { bar: id, pass } of playingOrder(score)) {
    const bar = written.get(id);
    if (bar === undefined) continue;
    const endSeconds = seconds + clock(bar.onsetTicks + bar.lengthTicks) - clock(bar.onsetTicks);
    const played = { bar: id, label: bar.label, ordinal: bar.ordinal, pass, startSeconds: seconds, endSeconds };
    bars.push(played);
    for (const note of notesOf.get(id) ?? []) notes.push(noteAt(note, bar, played, clock));
    seconds = endSeconds;
  }
  notes.sort((a, b) => a.onsetSeconds - b.onsetSeconds);
  return { bars, notes, lengthSeconds: seconds };
}
