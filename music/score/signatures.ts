/** A meter as printed; `beats` lists additive groups: 4/4 is `[4]`, 3+2/8 is `[3, 2]`. */
export interface Meter {
  readonly beats: readonly number[];
  readonly beatUnit: number;
}

/** A key signature: sharps where positive, flats where negative. */
export interface Key {
  readonly fifths: number;
  readonly mode: 'major' | 'minor' | null;
}
