import type { PartId } from '../../basis/ids.ts';
import type { Pitch } from '../../basis/pitch.ts';
import type { Barre, Bend, ClefMark, ChordSymbol, Lyric, PrintedWords, SwingMark } from '../../score/marks.ts';
import type {
  DynamicAccent,
  DynamicLevel,
  Fingerboard,
  Jump,
  Key,
  Meter,
  Ornament,
  Rest,
  SoundingNote,
  Technique,
} from '../../score/score.ts';
import type { XmlElement } from '../xml/tree.ts';

/** A moment of a part before the lengths of bars are known. */
export interface RawMoment {
  readonly barIndex: number;
  /** **Units** ticks from the bar's start. */
  readonly offsetTicks: number;
}

/** A stretch of a part that words and the line after them stand over; null where no line follows, so that they are for one moment. */
export interface RawTextSpan extends RawMoment {
  readonly text: string;
  readonly staff: number;
  readonly number: string | null;
  end: RawMoment | null;
}

/** A syllable before its note has an id. */
export type RawLyric = Omit<Lyric, 'note'>;

/** What a note begins, ends and carries beside its pitch and length; most notes have none of it. */
export interface RawAttachments {
  readonly lyrics: RawLyric[];
  /** Numbers of the slurs that begin here, and of those that end here. */
  readonly slurStarts: string[];
  readonly slurStops: string[];
  readonly bends: Omit<Bend, 'note'>[];
}

/** What one `<note>` with a head says. */
export interface RawHead extends RawMoment {
  readonly element: XmlElement;
  readonly partIndex: number;
  /** Its place among the heads of its part, as they are written. */
  readonly index: number;
  readonly lengthTicks: number;
  readonly staff: number;
  readonly voice: string;
  readonly stem: 'up' | 'down' | null;
  /** As written; null for unpitched notes. */
  readonly pitch: Pitch | null;
  /** Where an unpitched note is drawn. */
  readonly display: Pitch | null;
  readonly hasCrossHead: boolean;
  /** A slash that tells a rhythm and no pitch. */
  readonly isRhythmSlash: boolean;
  /** Brackets stand around it. */
  readonly isBracketed: boolean;
  readonly isGrace: boolean;
  /** A grace note with a slash. */
  readonly hasSlash: boolean;
  readonly isCue: boolean;
  readonly isChordMember: boolean;
  readonly startsTie: boolean;
  readonly stopsTie: boolean;
  readonly fingerboard: Fingerboard | null;
  /** The string alone, where no fret is told beside it. */
  readonly string: number | null;
  /** Semitones by which the transposition in force differs from the part's first. */
  readonly transposedBy: number;
  /** The tuning and the capo in force, where they are no longer the part's first. */
  readonly strings: RawStrings | null;
  readonly techniques: readonly Technique[];
  /** As written. */
  readonly ornaments: readonly Ornament[];
  readonly pluckingFinger: SoundingNote['pluckingFinger'];
  readonly frettingFinger: number | null;
  readonly instrument: string | null;
  /** Words attached to the note itself. */
  readonly words: string;
  readonly hasLyric: boolean;
  readonly attachments: RawAttachments | null;
}

/** How the strings are set up; null where nothing is said. */
export interface RawStrings {
  readonly tuning: readonly number[] | null;
  readonly capoFret: number | null;
  /** Frets by which the capo lies above the part's first. */
  readonly capoBy: number;
}

/** A written rest of a part. */
interface RawRest extends RawMoment, Pick<Rest, 'lengthTicks'> {
  readonly staff: number;
  readonly voice: string;
}

/** Words printed at a moment. */
interface RawWords extends RawMoment, Pick<PrintedWords, 'text' | 'staff' | 'kind'> {}

/** Where a tuplet bracket begins or ends. */
export interface RawTupletEdge extends RawMoment {
  readonly edge: 'start' | 'stop';
  readonly number: string;
  readonly staff: number;
  readonly voice: string;
  /** As the bracket itself says, or null where only the notes' own values do. */
  readonly ratio: TupletRatio | null;
  /** What the note's value is multiplied by in all. */
  readonly noteRatio: TupletRatio;
}

/** One end of a sign that leads from one note to another. */
export interface RawJoinEdge extends RawJoin {
  readonly head: RawHead;
}

/** One end of such a sign as its note says it. */
export interface RawJoin {
  readonly name: 'hammer-on' | 'pull-off' | 'slide' | 'glissando';
  readonly edge: 'start' | 'stop';
  readonly number: string;
}

/** `actual` notes in the time of `normal`. */
export interface TupletRatio {
  readonly actual: number;
  readonly normal: number;
}

/** A value at a moment of a part. */
type AtMoment<Value> = RawMoment & Omit<Value, 'onsetTicks' | 'endTicks' | 'part'>;

/** Where a dynamic is printed: null where its part does not say at which staff, or on which side of it. */
export interface DynamicPrint {
  readonly staff: number | null;
  readonly placement: 'above' | 'below' | null;
}

/** A dynamic level or the edge of a hairpin at a moment. */
export interface RawDynamic extends RawMoment, DynamicPrint {
  readonly mark:
    | { readonly kind: 'level'; readonly level: DynamicLevel }
    | { readonly kind: 'accent'; readonly sign: DynamicAccent }
    | { readonly kind: 'hairpinStart'; readonly direction: 'louder' | 'softer'; readonly number: string }
    | { readonly kind: 'hairpinStop'; readonly number: string };
}

/** A tempo at a moment: as the sound or a metronome mark tells it, or so many times the tempo before it. */
export interface RawTempo extends RawMoment {
  readonly tempo:
    | { readonly kind: 'sound' | 'metronome'; readonly quartersPerMinute: number }
    | { readonly kind: 'equation'; readonly factor: number };
}

/** What one part says about one bar. */
export interface RawBar {
  readonly label: string;
  readonly isImplicit: boolean;
  /** Where the last note, rest or forward ends, rests of whole bars apart. */
  contentTicks: number;
  /** Where the last rest of a whole bar ends by its own duration. */
  barRestTicks: number;
  meter: Meter | null;
  isUnmetered: boolean;
  key: Key | null;
  /** What bars after this one begin with, where it is said within or at the end of this one. */
  meterAfter: Meter | null;
  keyAfter: Key | null;
  startsRepeat: boolean;
  repeatTimes: number;
  /** The repeat is taken after a jump too. */
  repeatsAfterJump: boolean;
  endingStart: readonly number[];
  stopsEnding: boolean;
  readonly jumps: Jump[];
  rehearsalMark: string | null;
}

/** How a staff is drawn. */
export type StaffKind = 'notation' | 'tablature' | 'percussion';

/** Everything that one part of the file says, in the file's own terms. */
export interface RawPart {
  readonly index: number;
  readonly id: PartId;
  readonly name: string;
  /** Names and sounds of the part and its instruments, for guessing what plays. */
  readonly description: string;
  /** General MIDI programs from 1. */
  readonly programs: readonly number[];
  readonly instrumentNames: ReadonlyMap<string, string>;
  readonly bars: RawBar[];
  readonly heads: RawHead[];
  readonly rests: RawRest[];
  readonly words: RawWords[];
  readonly dynamics: RawDynamic[];
  readonly tempos: RawTempo[];
  readonly chordSymbols: AtMoment<ChordSymbol>[];
  readonly swings: AtMoment<SwingMark>[];
  readonly clefs: AtMoment<ClefMark>[];
  readonly barres: (AtMoment<Barre> & { readonly span: RawTextSpan })[];
  readonly tupletEdges: RawTupletEdge[];
  readonly joinEdges: RawJoinEdge[];
  readonly textSpans: RawTextSpan[];
  /** Changes of key within bars. */
  readonly keyChanges: (RawMoment & { readonly key: Key })[];
  readonly staffKinds: Map<number, StaffKind>;
  /** Octaves that the first clef of the part's first notation staff shifts by. */
  clefOctave: number;
  staffCount: number;
  /** Semitones of the first `<transpose>`, 0 where notes stand before it, or null where there is none. */
  transposeSemitones: number | null;
  /** Semitones of the transpositions in force while the part is read, by staff; 0 is all staves. */
  readonly transpositions: Map<number, number>;
  /** As the file lists it; string 1 first. */
  tuning: readonly number[] | null;
  capoFret: number | null;
  /** Tuning and capo in force while the part is read; null as long as they are the first ones. */
  strings: RawStrings | null;
  /** The words that name a capo on some strings only. */
  partialCapo: string | null;
}

/** A part of which nothing has been read yet. */
export const emptyPart = (
  identity: Pick<RawPart, 'index' | 'id' | 'name' | 'description' | 'programs' | 'instrumentNames'>,
): RawPart => ({
  ...identity,
  bars: [],
  heads: [],
  rests: [],
  words: [],
  dynamics: [],
  tempos: [],
  chordSymbols: [],
  swings: [],
  clefs: [],
  barres: [],
  tupletEdges: [],
  joinEdges: [],
  textSpans: [],
  keyChanges: [],
  staffKinds: new Map(),
  clefOctave: 0,
  staffCount: 1,
  transposeSemitones: null,
  transpositions: new Map(),
  tuning: null,
  capoFret: null,
  strings: null,
  partialCapo: null,
});

/** Semitones by which the transposition in force on a staff differs from the part's first. */
export function transposedBy({ transpositions, transposeSemitones }: RawPart, staff: number): number {
  if (transpositions.size === 0) return 0;
  return (transpositions.get(staff) ?? transpositions.get(0) ?? 0) - (transposeSemitones ?? 0);
}

/** How a staff of a part is drawn; notation where the file does not say. */
export const staffKindOf = (part: Pick<RawPart, 'staffKinds'>, staff: number): StaffKind =>
  part.staffKinds.get(staff) ?? 'notation';
