import type { BarId, HeadId, NoteId, PartId } from '../basis/ids.ts';
import type { Pitch } from '../basis/pitch.ts';
import type { DynamicAccent, DynamicLevel } from './dynamics.ts';
import type { Marks } from './marks.ts';
import type { Ornament } from './ornaments.ts';
import type { Key, Meter } from './signatures.ts';

export type { DynamicAccent, DynamicLevel } from './dynamics.ts';
export type { Ornament } from './ornaments.ts';
export type { Key, Meter } from './signatures.ts';

/** Where the player is sent at the end of a bar, or where such a jump lands. */
export type Jump = 'segno' | 'coda' | 'fine' | 'dalSegno' | 'daCapo' | 'toCoda';

/** One written bar. Onsets count ticks from the start of the written score, repeats not unfolded. */
export interface Bar {
  readonly id: BarId;
  /** Place in written order, from 1. */
  readonly ordinal: number;
  /** The printed number: it may repeat, skip or read X1. */
  readonly label: string;
  readonly onsetTicks: number;
  /** The bar's own length, which a pickup or a split ending makes differ from its meter's. */
  readonly lengthTicks: number;
  readonly meter: Meter;
  /** As the music sounds: moved where the file transposes or is written in shapes before a capo. */
  readonly key: Key;
  /** Printed without a number of its own, as pickups and the halves of split bars are. */
  readonly isImplicit: boolean;
  readonly startsRepeat: boolean;
  /** How many times the repeat that ends here is played in all; 0 where none ends. */
  readonly repeatTimes: number;
  /** The passes through a repeat on which this bar sounds; empty where it always does. */
  readonly endings: readonly number[];
  readonly jumps: readonly Jump[];
  readonly rehearsalMark: string | null;
}

/** What a hit on the guitar's body or strings is. */
export type HitKind = 'lowBody' | 'highBody' | 'stringSlap' | 'deadNote';

/** What a note sounds like: a pitch (written, and as it sounds), or a hit, which may be uncertain. */
export type NoteSound =
  | { readonly kind: 'pitched'; readonly written: Pitch; readonly sounding: Pitch; readonly soundingMidi: number }
  | { readonly kind: 'hit'; readonly hit: HitKind; readonly isCertain: boolean };

/** A place on the fingerboard: string 1 is the highest; fret 0 is open, or at the capo. */
export interface Fingerboard {
  readonly string: number;
  readonly fret: number;
}

/** The voice of the source that wrote a note: evidence for its line, not truth. */
export interface SourceVoice {
  readonly part: PartId;
  /** From 1, within the part. */
  readonly staff: number;
  readonly voice: string;
  readonly stem: 'up' | 'down' | null;
}

/** How a note is played; the names are the trade's. */
export type Technique =
  | 'letRing'
  | 'hammerOn'
  | 'pullOff'
  | 'slide'
  | 'slideIn'
  | 'slideInFromAbove'
  | 'slideOut'
  | 'slideOutUpwards'
  | 'vibrato'
  | 'tap'
  | 'bend'
  | 'naturalHarmonic'
  | 'artificialHarmonic'
  | 'palmMute'
  | 'staccato'
  | 'accent'
  | 'strongAccent'
  | 'tenuto'
  | 'fermata'
  | 'arpeggio'
  | 'arpeggioDown'
  | 'strumDown'
  | 'strumUp'
  | 'barre';

/** One sounding note: one pluck or hit, with its tie chain, its tablature copy and, for a double-stemmed unison, both heads. */
export interface SoundingNote {
  readonly id: NoteId;
  readonly bar: BarId;
  readonly onsetTicks: number;
  /** The written length of the whole tie chain, never 0. */
  readonly lengthTicks: number;
  readonly sound: NoteSound;
  /** Every head that stands for this note, notation before tablature, in order of time. */
  readonly heads: readonly HeadId[];
  /** One source voice as a rule, two for a double-stemmed unison. */
  readonly voices: readonly SourceVoice[];
  /** How long each of its voices writes it; absent where all of them write its whole length. **Units** ticks. */
  readonly voiceLengthTicks?: readonly number[];
  readonly fingerboard: Fingerboard | null;
  readonly techniques: readonly Technique[];
  /** As it sounds: accidentals are told beside the sounding pitch. Absent where there are none. */
  readonly ornaments?: readonly Ornament[];
  /** The letter of the plucking finger; `p` (thumb) is the strongest sign of a bass note. */
  readonly pluckingFinger: 'p' | 'i' | 'm' | 'a' | 'c' | null;
  /** The fretting finger, 1 to 4, 0 for open, or null where the source is silent. */
  readonly frettingFinger: number | null;
}

/** A grace note: in no count; it plays before its main note and follows that note's lines. */
export interface GraceNote {
  readonly id: NoteId;
  readonly main: NoteId;
  readonly sound: NoteSound;
  readonly heads: readonly HeadId[];
  readonly fingerboard: Fingerboard | null;
  /** Printed with a slash through its stem. */
  readonly hasSlash: boolean;
  /** Struck together with the grace note before it. */
  readonly isChordMember?: true;
}

/** A written rest of one source voice. */
export interface Rest {
  readonly bar: BarId;
  readonly voice: SourceVoice;
  readonly onsetTicks: number;
  readonly lengthTicks: number;
}

/** A tempo from its onset on. */
export interface TempoMark {
  readonly onsetTicks: number;
  readonly quartersPerMinute: number;
}

/** A dynamic level from its onset on; an accent such as sfz is for what is struck at its onset; hairpins run from `onsetTicks` to `endTicks`. */
export type DynamicMark = DynamicReach &
  (
    | { readonly kind: 'level'; readonly onsetTicks: number; readonly level: DynamicLevel }
    | { readonly kind: 'accent'; readonly onsetTicks: number; readonly sign: DynamicAccent }
    | {
        readonly kind: 'hairpin';
        readonly onsetTicks: number;
        readonly endTicks: number;
        readonly direction: 'louder' | 'softer';
      }
  );

/** Whom a dynamic is for. */
interface DynamicReach {
  /** The parts that say it, where several parts sound; absent where it is for all. */
  readonly parts?: readonly PartId[];
  /** The staves of its one part, where it is not for all that sound. */
  readonly staves?: readonly number[];
}

/** How the strings are tuned, string 1 (highest) first, without capo. **Units** MIDI note numbers as they sound. */
export type Tuning = readonly number[];

/** Strings tuned anew, or a capo moved, from the first note on that is played so. */
export interface Retuning {
  readonly onsetTicks: number;
  readonly tuning: Tuning;
  readonly capoFret: number;
}

/** One part of the source. */
export interface Part {
  readonly id: PartId;
  readonly name: string;
  readonly staves: readonly ('notation' | 'tablature' | 'percussion')[];
  /** As the part begins. */
  readonly tuning: Tuning | null;
  readonly capoFret: number;
  /** What comes after, in order of time; absent where tuning and capo stay. */
  readonly retunings?: readonly Retuning[];
  /** Semitones from written to sounding pitch: −12 for guitar music written at the guitar's usual octave. */
  readonly soundingShift: number;
  /** The part whose music this one repeats as tablature, if that is all it does. */
  readonly pairedWith: PartId | null;
}

/** A transcription as Heddle understands it: flat tables in exact ticks, sorted by onset, then by written order. */
export interface Score extends Marks {
  readonly title: string;
  readonly composer: string;
  /** The least common multiple of the file's divisions. */
  readonly ticksPerQuarter: number;
  readonly parts: readonly Part[];
  readonly bars: readonly Bar[];
  readonly notes: readonly SoundingNote[];
  readonly graces: readonly GraceNote[];
  readonly rests: readonly Rest[];
  readonly tempos: readonly TempoMark[];
  readonly dynamics: readonly DynamicMark[];
}
