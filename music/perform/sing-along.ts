import type { LineId, NoteId } from '../basis/ids.ts';
import type { Score } from '../score/score.ts';
import type { Performance, SoundEvent } from './performance.ts';
import { secondsPerTickAt } from './time-map.ts';
import type { SingingMove } from './singing-range.ts';

/** How a line is sung along with. */
export interface SingAlong extends Pick<SingingMove, 'octaves' | 'semitones'> {
  /** The line that is hummed; null where none is. */
  readonly line: LineId | null;
}

const octaveSemitones = 12;
const shortestSeconds = 0.08;

const nearSeconds = 1e-6;

/** How much of its note's written time is left at each event: all of it, but for the later strikes of an ornament. **Units** seconds. */
function timeLeft(events: readonly SoundEvent[], lengthOf: (event: SoundEvent) => number): readonly number[] {
  const ends = new Map<NoteId, number>();
  return events.map((event) => {
    const known = ends.get(event.note) ?? -Infinity;
    const isLater = event.onsetSeconds < known - nearSeconds;
    const endSeconds = isLater ? known : event.onsetSeconds + lengthOf(event);
    ends.set(event.note, endSeconds);
    return endSeconds - event.onsetSeconds;
  });
}

/** How long each hummed event lasts: its written length, or as long as it rang, until the next one of its line. */
function lengthsOf(
  performance: Performance,
  score: Pick<Score, 'notes'>,
  line: LineId,
): ReadonlyMap<SoundEvent, number> {
  const lengths = new Map<NoteId, number>(score.notes.map(({ id, lengthTicks }) => [id, lengthTicks]));
  const own = performance.events.filter((event) => event.line === line && event.voice.kind === 'pitched');
  const written = timeLeft(
    own,
    (event) => (lengths.get(event.note) ?? 0) * secondsPerTickAt(performance.timeMap, event.onsetSeconds),
  );
  const endings = new Map<SoundEvent, number>();
  let nextSeconds = Infinity;
  for (const [index, event] of [...own.entries()].reverse()) {
    const after = own[index + 1];
    if (after !== undefined && after.onsetSeconds > event.onsetSeconds) nextSeconds = after.onsetSeconds;
    const longest = Math.max(event.ringSeconds, written[index] ?? 0);
    endings.set(event, Math.max(shortestSeconds, Math.min(longest, nextSeconds - event.onsetSeconds)));
  }
  return endings;
}

/**
 * A performance for singing along with: one line hummed, a note at a time and on no string, moved by octaves if wanted;
 * everything moved by semitones together. Times and strengths stay.
 */
export function sungAlong(performance: Performance, score: Pick<Score, 'notes'>, sing: SingAlong): Performance {
  const { line, octaves, semitones } = sing;
  if (line === null && semitones === 0) return performance;
  const lengths = line === null ? new Map<SoundEvent, number>() : lengthsOf(performance, score, line);
  const events = performance.events.map((event): SoundEvent => {
    const { voice } = event;
    if (voice.kind === 'hit') return event;
    const ringSeconds = lengths.get(event);
    const midi = voice.midi + semitones;
    if (ringSeconds === undefined) return { ...event, voice: { ...voice, midi } };
    const hum = { ...voice, instrument: 'hum' as const, midi: midi + octaves * octaveSemitones };
    return { ...event, ringSeconds, voice: hum, string: null };
  });
  return { ...performance, events };
}
