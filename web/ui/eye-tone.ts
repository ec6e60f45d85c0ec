/** What an eye tells about its line: heard as usual, forward, faint (heard less) or silent. */
export type EyeTone = 'plain' | 'forward' | 'faint' | 'silent';

/** What an eye shows, in a word. */
export const heardAs: Readonly<Record<EyeTone, string>> = {
  plain: 'heard',
  forward: 'forward',
  faint: 'softer',
  silent: 'silent',
};
