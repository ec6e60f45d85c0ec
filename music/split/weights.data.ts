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
  /** Per semitone from where full texture before and after puts the line, while the line goes on and the texture is full. */
  readonly anchor: number;
  /** The same for a line that begins or comes back after a long rest. */
  readonly anchorRest: number;
  /** How fast a rest brings the one to the other, per quarter of rest. */
  readonly anchorRise: number;
  /** How long a note is taken to sound on when crossings are looked for. **Units** quarter notes. */
  readonly linger: number;
}

/** The weights that fit guitar pieces, chorales and what was made of them best; fitted on one half of the pieces and tried on the other, see docs/splitting.md. */
export const fittedWeights: Weights = {
  leapCap: 7.6,
  resume: 7.4,
  gap: 3,
  decay: 0.15,
  register: 0.09,
  newLine: 14,
  crossing: 5.5,
  order: 0.22,
  overlap: 60,
  chord: 22,
  chordSpan: 0.65,
  chordUneven: 36,
  rhythm: 0.28,
  anchor: 0.2,
  anchorRest: 0.3,
  anchorRise: 0.7,
  linger: 0,
};

/** The weights where lengths tell nothing: a gap may be a held note, and what is even is the time from onset to onset. */
export const tablatureWeights: Weights = { ...fittedWeights, resume: 1, gap: 2.6, rhythm: 1.3, linger: 1 };
