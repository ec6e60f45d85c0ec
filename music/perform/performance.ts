import type { BarId, LineId, NoteId } from '../basis/ids.ts';
import type { TickRange } from '../score/excerpt.ts';
import type { HitKind, Tuning } from '../score/score.ts';

/** What a pitched line is played with; `hum` is a soft voice to sing along with. */
export type Instrument = 'steel' | 'nylon' | 'bass' | 'hum';

/** How a string is set moving, and how freely it rings. */
export type Stroke = 'pluck' | 'legato' | 'palmMute' | 'harmonic' | 'dead';

/** What an event sounds with: an instrument at a pitch, or a hit. */
export type EventVoice =
  | { readonly kind: 'pitched'; readonly instrument: Instrument; readonly midi: number; readonly stroke: Stroke }
  | { readonly kind: 'hit'; readonly hit: HitKind };

/** A moment in the course of a note's pitch. **Units** seconds at the written tempo, from the note's onset; cents from its voice's `midi`. */
export interface PitchPoint {
  readonly atSeconds: number;
  readonly cents: number;
}

/** One playing of one note by one line; a note on two lines has an event for each. **Units** seconds at the written tempo, from the performance's start. */
export interface SoundEvent {
  readonly note: NoteId;
  /** The line that plays it; null for a note on no line, which is heard only while no line is soloed. */
  readonly line: LineId | null;
  readonly onsetTicks: number;
  readonly onsetSeconds: number;
  /** How long the note may sound before it is damped; decided on all notes, before any line is muted. */
  readonly ringSeconds: number;
  readonly voice: EventVoice;
  /** How its pitch moves: straight from point to point, held before the first and after the last; empty where it is steady. */
  readonly glide: readonly PitchPoint[];
  /** How hard it is played: 0 (inaudible) to 1 (as hard as one can). */
  readonly strength: number;
  /** The string it is on; whatever is struck there next ends it. Null where unknown. */
  readonly string: number | null;
  /** How many frets from the nut or the capo it is stopped at, 0 for open. Null where unknown. */
  readonly fret: number | null;
}

/** A stretch of written ticks played at one pace. Seconds count from the performance's start. */
export interface TimeSegment {
  readonly startTicks: number;
  readonly endTicks: number;
  readonly startSeconds: number;
  readonly secondsPerTick: number;
  /** How long a tick would last by the tempo alone, without swing and fermatas. */
  readonly tempoSecondsPerTick: number;
}

/** Written ticks and seconds of a performance, each from the other; segments in order of playing, without gaps in seconds. */
export interface TimeMap {
  readonly segments: readonly TimeSegment[];
  readonly lengthSeconds: number;
}

/** How a click is marked: a bar's first beat, another beat, a part of a beat. */
export type ClickAccent = 'bar' | 'beat' | 'part';

/** Into how many equal parts the click divides a beat; 1 leaves it whole. */
export type Subdivision = 1 | 2 | 3 | 4;

/** One moment at which the click may sound. **Units** seconds from the performance's start; negative in a count-in. */
export interface Click {
  readonly atSeconds: number;
  readonly accent: ClickAccent;
  /** The subdivisions that it belongs to. */
  readonly subdivisions: readonly Subdivision[];
}

/** How a bar swings: pairs of `pairTicks` whose middle is played at this share of them. */
export interface BarSwing {
  readonly pairTicks: number;
  readonly middle: number;
}

/** One playing of one bar. Its beats are those of its meter; a short bar is placed within them by `phaseTicks`. */
export interface PerformedBar {
  readonly bar: BarId;
  readonly onsetTicks: number;
  readonly lengthTicks: number;
  /** How far into its meter the bar begins: a pickup of one beat before a 4/4 bar begins three beats in. */
  readonly phaseTicks: number;
  readonly meterTicks: number;
  /** Where its meter's beats fall, from the meter's start; the first is the bar's. */
  readonly beatTicks: readonly number[];
  /** The swing that holds where its played part begins; null where it is straight. */
  readonly swing: BarSwing | null;
  /** Where the bar, or the part of it that is played, begins and ends. */
  readonly startSeconds: number;
  readonly endSeconds: number;
}

/** A finding about what the score left open and how it was filled in. */
export type PerformanceNote =
  | { readonly code: 'tempo-assumed'; readonly detail: string }
  | { readonly code: 'swing-assumed'; readonly detail: string }
  | { readonly code: 'fermatas-held'; readonly detail: string }
  | { readonly code: 'tempo-words-played'; readonly detail: string }
  | { readonly code: 'lines-unknown'; readonly detail: string };

/** Everything that is needed to sound some lines of a stretch of music: plain data, the same for browser and server. */
export interface Performance {
  /** The lines that have a channel of their own, in the split's order. */
  readonly lines: readonly LineId[];
  /** Sorted by onset, then by line, then by pitch. */
  readonly events: readonly SoundEvent[];
  readonly lengthSeconds: number;
  readonly timeMap: TimeMap;
  readonly bars: readonly PerformedBar[];
  /** Where the click may sound: beats and their parts, in order. */
  readonly clicks: readonly Click[];
  /** The stretches of written ticks that are played, in order of playing. */
  readonly ranges: readonly TickRange[];
  /** How the open strings of the guitar sound, a capo reckoned in, the highest first; null where nothing says so. */
  readonly tuning: Tuning | null;
  readonly notes: readonly PerformanceNote[];
}
