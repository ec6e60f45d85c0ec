/**
 * What came out when it was last decided, as the first 16 digits of a SHA-256. It changes only when splitting or sound is meant to;
 * the same must come out of every engine: tests/same asks Node, tests/browser asks Chromium.
 */
export const decided = {
  /** Labels and confidences of each of `sameSplits`, as JSON. */
  splits: ['71f841d2a15561ce', '2d8eb7d205c027c3', '7378d20fb95fe9d4'],
  /** Left side, then right, of the little performance, by sample rate. */
  sound: { 44_100: 'd1d52cdbfe924882', 48_000: '84b78e3931dcf271' },
} as const;
