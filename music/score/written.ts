import type { BarId, LineId, NoteId } from '../basis/ids.ts';
import type { Pitch } from '../basis/pitch.ts';
import type { Bend, ChordSymbol, Lyric, SwingMark } from './marks.ts';
import type { Ornament } from './ornaments.ts';
import type {
  DynamicAccent,
  DynamicLevel,
  Fingerboard,
  HitKind,
  Jump,
  Key,
  Meter,
  SoundingNote,
  Technique,
  Tuning,
} from './score.ts';

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
  /** `actual` notes in the time of `normal`, the product where a tuplet stands within another; null outside tuplets. */
  readonly tuplet: TupletRatio | null;
}

/** So many notes in the time of so many. */
export interface TupletRatio {
  readonly actual: number;
  readonly normal: number;
}

/** Where a tuplet within another begins or ends, with its own ratio. */
export interface InnerTuplet extends TupletRatio {
  readonly edge: 'start' | 'stop';
}

/** The sound of a head: a pitch as it sounds, or a hit. */
export type WrittenSound =
  { readonly kind: 'pitched'; readonly pitch: Pitch } | { readonly kind: 'hit'; readonly hit: HitKind };

/** A sign that reaches from one head to a later one; `number` tells those apart that are open at once. */
export interface WrittenJoin {
  readonly kind: 'slur' | 'hammerOn' | 'pullOff' | 'slide';
  readonly edge: 'start' | 'stop';
  readonly number: number;
}

/** A syllable under a head. */
export type WrittenLyric = Omit<Lyric, 'note'>;

/** What is printed at a head beside its pitch; on the first head of a tie chain only. */
export interface HeadDetails {
  /** Without those that join two heads. */
  readonly techniques: readonly Technique[];
  /** As it sounds; absent where there are none. */
  readonly ornaments?: readonly Ornament[];
  readonly bends: readonly Omit<Bend, 'note'>[];
  readonly pluckingFinger: SoundingNote['pluckingFinger'];
  readonly frettingFinger: number | null;
  readonly lyrics: readonly WrittenLyric[];
  readonly joins: readonly WrittenJoin[];
}

/** One head of the written-out score, linked to the note that it stands for. */
export interface WrittenHead {
  readonly source: NoteId;
  readonly sound: WrittenSound;
  readonly fingerboard: Fingerboard | null;
  readonly isTiedFromBefore: boolean;
  readonly isTiedOn: boolean;
  /** Null where nothing is printed. */
  readonly details: HeadDetails | null;
}

/** A grace note before an event. */
export interface WrittenGrace {
  /** The grace note's own id. */
  readonly source: NoteId;
  readonly sound: WrittenSound;
  readonly fingerboard: Fingerboard | null;
  readonly hasSlash: boolean;
  /** Struck together with the one before it. */
  readonly isChordMember?: true;
  readonly joins: readonly WrittenJoin[];
}

/** A rest (no heads) or one or more heads struck together. Onsets count ticks from the start of the bar. */
export interface WrittenEvent {
  readonly onsetTicks: number;
  readonly lengthTicks: number;
  readonly value: NoteValue;
  /** First or last of its tuplet's bracket, or neither. */
  readonly tupletEdge: 'start' | 'stop' | null;
  /** First or last of a tuplet within that one, or neither. */
  readonly innerTuplet: InnerTuplet | null;
  /** A rest that fills its bar whatever the bar's length. */
  readonly isBarRest: boolean;
  readonly heads: readonly WrittenHead[];
  /** In the order in which they are played. */
  readonly graces: readonly WrittenGrace[];
}

/** Something printed over or under a staff at a moment. **Units** `onsetTicks` from the start of the bar. */
export type WrittenDirection = { readonly onsetTicks: number } & (
  | { readonly kind: 'tempo'; readonly quartersPerMinute: number }
  | { readonly kind: 'words'; readonly text: string }
  | { readonly kind: 'swing'; readonly swing: Pick<SwingMark, 'long' | 'short' | 'unit'> }
  | { readonly kind: 'chordSymbol'; readonly symbol: Omit<ChordSymbol, 'onsetTicks'> }
  | { readonly kind: 'level'; readonly level: DynamicLevel }
  | { readonly kind: 'accent'; readonly sign: DynamicAccent }
  | { readonly kind: 'hairpinStart'; readonly direction: 'louder' | 'softer'; readonly number: number }
  | { readonly kind: 'hairpinStop'; readonly number: number }
);

/** What all staves share in one bar. */
export interface WrittenBar {
  readonly bar: BarId;
  readonly label: string;
  readonly lengthTicks: number;
  readonly meter: Meter;
  readonly key: Key;
  /** Shorter than its meter because the excerpt or the piece begins or ends within it. */
  readonly isPartial: boolean;
  readonly signs: BarSigns;
  /** What is printed once, over the first staff, in order of time. */
  readonly directions: readonly WrittenDirection[];
}

/** Repeats, endings, jumps and the rehearsal mark of a bar; `repeatTimes` is 0 where no repeat ends. */
export interface BarSigns {
  readonly startsRepeat: boolean;
  readonly repeatTimes: number;
  /** The repeat is taken after D.C. or D.S. too. */
  readonly repeatsAfterJump: boolean;
  readonly endings: readonly number[];
  readonly jumps: readonly Jump[];
  readonly rehearsalMark: string | null;
}

/** The clef of a written-out staff; `octave` shifts it: −1 is the guitarist's treble clef with an 8 below. */
export type WrittenClef =
  | { readonly sign: 'G' | 'F' | 'C'; readonly staffLine: number; readonly octave: -1 | 0 | 1 }
  | { readonly sign: 'percussion' };

/** A clef in the midst of a staff, from the start of a bar on. */
export interface ClefChange {
  readonly barIndex: number;
  readonly clef: WrittenClef;
}

/** How far a staff is written from where it sounds: `chromatic` semitones and `diatonic` steps up (negative: down), beside whole octaves. */
export interface Transposition {
  readonly chromatic: number;
  readonly diatonic: number;
  readonly octaves: number;
}

/** How the strings are set up. */
export interface StringSetup {
  readonly tuning: Tuning;
  readonly capoFret: number;
}

/** Strings that are tuned anew, or a capo that moves, from a moment of a bar on. **Units** `onsetTicks` from the start of the bar. */
export interface SetupChange extends StringSetup {
  readonly barIndex: number;
  readonly onsetTicks: number;
}

/** The strings under a staff: its notes are shown there once more, as frets. */
export interface StaffTablature extends StringSetup {
  /** In order of time; absent where the set-up stays. */
  readonly changes?: readonly SetupChange[];
  /** Notes whose place on the strings is proposed, not the source's; they stand in brackets. */
  readonly proposed: ReadonlySet<NoteId>;
}

/** One staff of the written-out score: one line of the split, bar by bar. Heads are at sounding pitch; a writer transposes them. */
export interface WrittenStaff {
  readonly line: LineId;
  readonly name: string;
  /** The line's letter, or its player's abbreviation. */
  readonly letter: string;
  readonly clef: WrittenClef;
  readonly clefChanges: readonly ClefChange[];
  /** Null where it is written as it sounds. */
  readonly transposition: Transposition | null;
  /** Null where only notes are printed. */
  readonly tablature: StaffTablature | null;
  /** What is printed at this staff, bar by bar, each list in order of time. */
  readonly directions: readonly (readonly WrittenDirection[])[];
  /** One list of events per bar of `WrittenScore.bars`; each list sums to its bar's length. */
  readonly bars: readonly (readonly WrittenEvent[])[];
}

/** How the staves of an ensemble hang together under one bracket: bar lines run through all of them, or stop at each as those of singers do. */
export type StaffBracket = 'joined' | 'apart';

/** The lines as an ensemble score: a staff each, rests filled in, at sounding pitch. */
export interface WrittenScore {
  readonly title: string;
  readonly composer: string;
  readonly ticksPerQuarter: number;
  readonly bars: readonly WrittenBar[];
  readonly staves: readonly WrittenStaff[];
  /** Around all staves; absent where there is one staff, or no ensemble. */
  readonly bracket?: StaffBracket;
}
