import type { BarId, LineId, NoteId } from '../basis/ids.ts';
import type { Pitch } from '../basis/pitch.ts';
import type { Fingerboard, HitKind, Key, Meter } from './score.ts';

/** A printed note value: its base type, its dots and the tuplet it stands in. */
export interface NoteValue {
  readonly type:
    | 'maxima'
    | 'long'
    | 'breve'
    | 'whole'
    | 'half'
    | 'quarter'
    | 'eighth'
    | '16th'
    | '32nd'
    | '64th'
    | '128th'
    | '256th';
  readonly dots: number;
  /** `actual` notes in the time of `normal`, or null outside tuplets. */
  readonly tuplet: { readonly actual: number; readonly normal: number } | null;
}

/** One head of the written-out score, linked to the note that it stands for. */
export interface WrittenHead {
  readonly source: NoteId;
  readonly sound: { readonly kind: 'pitched'; readonly pitch: Pitch } | { readonly kind: 'hit'; readonly hit: HitKind };
  readonly fingerboard: Fingerboard | null;
  readonly isTiedFromBefore: boolean;
  readonly isTiedOn: boolean;
}

/** A rest (no heads) or one or more heads struck together. Onsets count ticks from the start of the bar. */
export interface WrittenEvent {
  readonly onsetTicks: number;
  readonly lengthTicks: number;
  readonly value: NoteValue;
  /** First or last of its tuplet's bracket, or neither. */
  readonly tupletEdge: 'start' | 'stop' | null;
  /** A rest that fills its bar whatever the bar's length. */
  readonly isBarRest: boolean;
  readonly heads: readonly WrittenHead[];
}

/** What all staves share in one bar. */
export interface WrittenBar {
  readonly bar: BarId;
  readonly label: string;
  readonly lengthTicks: number;
  readonly meter: Meter;
  readonly key: Key;
  /** Shorter than its meter because the excerpt or the piece begins or ends within it. */
  readonly isPartial: boolean;
}

/** The clef of a written-out staff; `octave` shifts it: −1 is the guitarist's treble clef with an 8 below. */
export type WrittenClef =
  | { readonly sign: 'G' | 'F' | 'C'; readonly staffLine: number; readonly octave: -1 | 0 | 1 }
  | { readonly sign: 'percussion' };

/** One staff of the written-out score: one line of the split, bar by bar. */
export interface WrittenStaff {
  readonly line: LineId;
  readonly name: string;
  readonly letter: string;
  readonly clef: WrittenClef;
  /** One list of events per bar of `WrittenScore.bars`; each list sums to its bar's length. */
  readonly bars: readonly (readonly WrittenEvent[])[];
}

/** The lines as an ensemble score: a staff each, rests filled in, at sounding pitch. */
export interface WrittenScore {
  readonly title: string;
  readonly ticksPerQuarter: number;
  readonly bars: readonly WrittenBar[];
  readonly staves: readonly WrittenStaff[];
}
