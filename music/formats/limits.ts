/** What a file may hold at most. **Source** none: chosen well above the largest scores for one guitar. */
export const limits = {
  /** Bytes of a packed (.mxl) file. */
  packedBytes: 10 * 1024 * 1024,
  /** Bytes of the score after unpacking, and of a file that is not packed. */
  unpackedBytes: 64 * 1024 * 1024,
  /** How many times larger than packed a score may become once it is past its first megabyte. */
  unpackRatio: 250,
  /** Elements within elements. */
  depth: 64,
  /** Elements of any kind. */
  elements: 3_000_000,
  /** `<note>` elements, rests included. */
  notes: 50_000,
  /** Bars of one part. */
  bars: 20_000,
  /** Staves of one part. */
  staves: 64,
  /** The finest grid of time that is kept exactly. */
  ticksPerQuarter: 1_000_000,
  /** The longest duration that is believed. **Units** quarter notes. */
  durationQuarters: 10_000,
} as const;
