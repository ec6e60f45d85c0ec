import type { BarId, NoteId, PartId } from '../basis/ids.ts';
import type { Pitch } from '../basis/pitch.ts';
import type { Key } from './signatures.ts';

/** One syllable under a note. */
export interface Lyric {
  readonly note: NoteId;
  /** The number or name of the verse; `1` where the file names none. */
  readonly verse: string;
  readonly text: string;
  readonly syllabic: 'single' | 'begin' | 'middle' | 'end';
  /** Held over the notes that follow. */
  readonly isExtended: boolean;
}

/** A slur from one note to a later one; either may be a grace note. */
export interface Slur {
  readonly from: NoteId;
  readonly to: NoteId;
}

/** A note of the scale without octave. */
export type Tone = Pick<Pitch, 'step' | 'alter'>;

/** A chord symbol from its onset on, as printed; where it has no root (a Roman numeral, N.C.) `root` is null. */
export interface ChordSymbol {
  readonly onsetTicks: number;
  /** As people write it: `Am7`, `C/E`, `N.C.`. */
  readonly text: string;
  readonly root: Tone | null;
  /** **Source** MusicXML 4.0, kind-value: `major`, `minor-seventh` … */
  readonly kind: string;
  readonly bass: Tone | null;
}

/** Words printed at a moment, with what they were taken for. */
export interface PrintedWords {
  readonly onsetTicks: number;
  readonly part: PartId;
  readonly staff: number;
  readonly kind: 'section' | 'tempo' | 'swing' | 'capo' | 'jump' | 'barre' | 'other';
  readonly text: string;
}

/** From its onset on, two notes of a kind are played `long` to `short`; straight where they are equal. */
export interface SwingMark {
  readonly onsetTicks: number;
  readonly long: number;
  readonly short: number;
  readonly unit: 'eighth' | '16th';
  /** Said by words only, so that the ratio was assumed. */
  readonly isAssumed: boolean;
}

/** A tuplet bracket of one voice: `actual` notes in the time of `normal`; `depth` is 1, or more within another tuplet. */
export interface Tuplet {
  readonly part: PartId;
  readonly staff: number;
  readonly voice: string;
  readonly onsetTicks: number;
  readonly endTicks: number;
  readonly actual: number;
  readonly normal: number;
  readonly depth: number;
}

/** One stage of a bent string. */
export interface Bend {
  readonly note: NoteId;
  readonly kind: 'bend' | 'preBend' | 'release';
  /** How far the string goes from its fret's pitch. **Units** semitones; fractions are common. */
  readonly semitones: number;
}

/** A finger laid over several strings. */
export interface Barre {
  readonly onsetTicks: number;
  /** Where the file says how long it lies, else null. */
  readonly endTicks: number | null;
  readonly fret: number;
  /** Over some of the strings only. */
  readonly isPartial: boolean;
}

/** A clef from its onset on. */
export interface ClefMark {
  readonly part: PartId;
  readonly staff: number;
  readonly onsetTicks: number;
  readonly sign: 'G' | 'F' | 'C' | 'percussion' | 'TAB';
  readonly staffLine: number;
  readonly octave: number;
}

/** A capo on some strings only, in the words of the file; it moves no pitch. */
export interface PartialCapo {
  readonly part: PartId;
  readonly text: string;
}

/** A change of key within a bar, as it sounds; the bars after it have the new key themselves. */
export interface KeyChange {
  readonly onsetTicks: number;
  readonly key: Key;
}

/** Where a note is held into another ending, or into a coda: heads that continue it on another pass, not struck again. */
export interface HeldOver {
  readonly note: NoteId;
  readonly bar: BarId;
  readonly onsetTicks: number;
  readonly lengthTicks: number;
}

/** Everything written beside the notes and bars of a score, each list in order of time. */
export interface Marks {
  readonly lyrics: readonly Lyric[];
  readonly slurs: readonly Slur[];
  readonly chordSymbols: readonly ChordSymbol[];
  readonly words: readonly PrintedWords[];
  readonly swings: readonly SwingMark[];
  readonly tuplets: readonly Tuplet[];
  readonly bends: readonly Bend[];
  readonly barres: readonly Barre[];
  readonly clefs: readonly ClefMark[];
  readonly partialCapos: readonly PartialCapo[];
  readonly keyChanges: readonly KeyChange[];
  /** Bars in free time, whatever meter came before. */
  readonly unmeteredBars: readonly BarId[];
  readonly heldOvers: readonly HeldOver[];
  /** Bars whose repeat sign is taken again after D.C. or D.S. */
  readonly repeatsAfterJump: readonly BarId[];
}

/** The marks of music that has none. */
export const noMarks: Marks = {
  lyrics: [],
  slurs: [],
  chordSymbols: [],
  words: [],
  swings: [],
  tuplets: [],
  bends: [],
  barres: [],
  clefs: [],
  partialCapos: [],
  keyChanges: [],
  unmeteredBars: [],
  heldOvers: [],
  repeatsAfterJump: [],
};
