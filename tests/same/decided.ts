/**
 * What came out when it was last decided, as the first 16 digits of a SHA-256. It changes only when splitting or sound is meant to;
 * the same must come out of every engine: tests/same asks Node, tests/browser asks Chromium.
 */
export const decided = {
  /** Labels and confidences of each of `sameSplits`, as JSON. */
  splits: ['049007f1c8e2d062', 'a5e066cfcd88dece', '38d21906bc9398f8'],
  /** Left side, then right, of the little performance, by sample rate. */
  sound: { 44_100: '7a93967e723851b0', 48_000: '0b869fe3508781bc' },
} as const;
