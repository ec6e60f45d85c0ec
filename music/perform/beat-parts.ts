import type { Subdivision } from './performance.ts';

/** Where within a beat the parts of some subdivision begin, as shares of its length. */
export const beatParts: readonly { readonly share: number; readonly subdivisions: readonly Subdivision[] }[] = [
  { share: 0, subdivisions: [1, 2, 3, 4] },
  { share: 1 / 4, subdivisions: [4] },
  { share: 1 / 3, subdivisions: [3] },
  { share: 1 / 2, subdivisions: [2, 4] },
  { share: 2 / 3, subdivisions: [3] },
  { share: 3 / 4, subdivisions: [4] },
];
