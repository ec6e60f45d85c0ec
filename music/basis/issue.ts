/** Where an issue stands: in the file as a whole, at a place of its text, or at a bar and beat of its music. */
export type IssuePlace =
  | { readonly kind: 'file' }
  | { readonly kind: 'text'; readonly lineNumber: number; readonly column: number }
  | {
      readonly kind: 'music';
      readonly part: string;
      /** The bar's place in written order, from 1. */
      readonly barOrdinal: number;
      /** The bar's printed number. */
      readonly barLabel: string;
      /** **Units** beats of the meter, from 1; 2.5 is half a beat after the second. */
      readonly beat: number;
    };

/** What an imperfect input is said to be wrong in; the set is closed so that each code can be explained. */
export type IssueCode =
  | 'file-unreadable'
  | 'file-too-large'
  | 'file-unsupported'
  | 'document-type-refused'
  | 'markup-broken'
  | 'nesting-too-deep'
  | 'no-music'
  | 'too-many-notes'
  | 'bar-underfull'
  | 'bar-overfull'
  | 'voice-gap'
  | 'tie-unresolved'
  | 'span-unresolved'
  | 'swing-assumed'
  | 'pitch-missing'
  | 'duration-missing'
  | 'string-fret-disagree'
  | 'tablature-disagrees'
  | 'tablature-unpaired'
  | 'octave-assumed'
  | 'capo-assumed'
  | 'tuning-assumed'
  | 'hit-uncertain'
  | 'element-kept'
  | 'element-left-out'
  | 'element-unknown'
  | 'kept-as-words'
  | 'meter-assumed'
  | 'note-unplayable'
  | 'fingering-proposed'
  | 'rhythm-guessed'
  | 'value-repaired';

/** One finding about an input: what, where, how bad, and what was done about it. */
export interface Issue {
  readonly code: IssueCode;
  readonly where: IssuePlace;
  /** `error`: nothing could be read; `warning`: read, but check it; `note`: for information. */
  readonly severity: 'error' | 'warning' | 'note';
  /** One plain sentence: what was found and what was kept. */
  readonly detail: string;
}

/** A value read from an imperfect input beside every issue that was found on the way. */
export interface WithIssues<Value> {
  readonly value: Value;
  readonly issues: readonly Issue[];
}
