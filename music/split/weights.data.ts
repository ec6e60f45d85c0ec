/** What the search pays for. **Units** semitones unless said otherwise: a cost of 1 weighs as much as a leap of one semitone. */
export interface Weights {
  /** A leap costs its width, up to this. */
  readonly leapCap: number;
  /** A line that resumes after a rest. */
  readonly resume: number;
  /** Times log2(1 + rest in quarters). */
  readonly gap: number;
  /** Share of the pitch memory lost per quarter of rest. */
  readonly decay: number;
  /** Per semitone from the line's running mean. */
  readonly register: number;
  /** The first note of a line. */
  readonly newLine: number;
  /** A note beyond a sounding note of a neighbouring line. */
  readonly crossing: number;
  /** A note beyond the last, no longer sounding note of a neighbouring line. */
  readonly order: number;
  /** Entering while the line's last note still sounds. */
  readonly overlap: number;
  /** A further note of one line at the same moment. */
  readonly chord: number;
  /** Per semitone between neighbours of one chord. */
  readonly chordSpan: number;
  /** Notes of one chord that end at different times. */
  readonly chordUneven: number;
  /** Per halving or doubling of the line's last note value. */
  readonly rhythm: number;
  /** Per semitone from where full texture before and after puts the line. */
  readonly anchor: number;
}

/** Weights for independent parts. */
export const polyphonicWeights: Weights = {
  leapCap: 8.7, resume: 3.75, gap: 4.3, decay: 0.19, register: 0.065, newLine: 4.2, crossing: 7.3, order: 0.28,
  overlap: 21, chord: 14, chordSpan: 0.2, chordUneven: 20, rhythm: 0, anchor: 0,
};

/** Weights for plucked music that is written in layers. */
export const pluckedWeights: Weights = {
  leapCap: 10.5, resume: 4.1, gap: 12.9, decay: 0.36, register: 0.21, newLine: 14, crossing: 6.4, order: 2.1,
  overlap: 30, chord: 12, chordSpan: 0.2, chordUneven: 20, rhythm: 0, anchor: 0,
};
