import type { Fraction } from '../../basis/fraction.ts';
import type { Pitch } from '../../basis/pitch.ts';
import type { AbcClef } from './abc-clefs.ts';
import type { AbcKey } from './abc-key.ts';
import type { AbcMeter, AbcTempo } from './abc-time.ts';

/** One note of an event as it sounds where it is written. */
export interface AbcNote {
  readonly pitch: Pitch;
  isTiedOn: boolean;
  isTiedFromBefore: boolean;
  /** Fingers that are told for it alone within a chord. */
  readonly fingers: readonly string[];
}

/** A grace note, struck with the one before it or after it. */
export interface AbcGrace {
  readonly pitch: Pitch;
  readonly isChordMember: boolean;
}

/** A syllable of one verse. */
export interface AbcSyllable {
  readonly verse: number;
  readonly text: string;
  readonly syllabic: 'single' | 'begin' | 'middle' | 'end';
  isExtended: boolean;
}

/** Notes struck together, or a rest where there are none. **Units** lengths of a whole note. */
export interface AbcEvent {
  readonly notes: readonly AbcNote[];
  readonly isVisible: boolean;
  /** As printed, without its tuplet. */
  printed: Fraction;
  tuplet: { readonly actual: number; readonly normal: number } | null;
  tupletEdge: 'start' | 'stop' | null;
  readonly isWholeBar: boolean;
  /** White space or the end of its line stands after it. */
  endsBeam: boolean;
  readonly graces: readonly AbcGrace[];
  readonly hasGraceSlash: boolean;
  readonly decorations: string[];
  readonly chordSymbols: string[];
  readonly annotations: AbcAnnotation[];
  readonly slurStarts: readonly number[];
  readonly slurStops: number[];
  readonly syllables: AbcSyllable[];
  readonly lineNumber: number;
  readonly column: number;
}

/** Words beside a note. */
export interface AbcAnnotation {
  readonly text: string;
  readonly placement: 'above' | 'below';
}

/** What changes at a moment of a bar: before the event at this index of the first layer. */
export interface AbcChange {
  readonly eventIndex: number;
  readonly key?: AbcKey;
  readonly meter?: AbcMeter;
  readonly clef?: AbcClef;
  readonly tempo?: AbcTempo;
  readonly section?: string;
  /** What stands there beside the notes. */
  readonly decorations?: readonly string[];
}

/** One bar of one voice. */
export interface AbcBar {
  /** The voice itself, then what is laid over it. */
  readonly layers: AbcEvent[][];
  readonly changes: AbcChange[];
  startsRepeat: boolean;
  /** How often the repeat that ends here is played; 0 where none ends. */
  repeatTimes: number;
  endings: readonly number[];
  endingText: string;
  stopsEnding: boolean;
  /** The bar line after it. */
  style: 'regular' | 'light-light' | 'light-heavy' | 'heavy-light' | null;
  meter: AbcMeter;
}

/** One voice of a tune. */
export interface AbcVoice {
  id: string;
  name: string;
  clef: AbcClef | null;
  transpose: number;
  readonly bars: AbcBar[];
}

/** A bar that nothing stands in yet. */
export const emptyBar = (meter: AbcMeter): AbcBar => ({
  layers: [[]],
  changes: [],
  startsRepeat: false,
  repeatTimes: 0,
  endings: [],
  endingText: '',
  stopsEnding: false,
  style: null,
  meter,
});
