import { expect, it } from 'vitest';
import { volumeIn } from './own-volume.ts';

it.each([
  [null, 0],
  ['-12', -12],
  ['0', 0],
  ['60', 6],
  ['-400', -30],
  ['loud', 0],
])('a volume that was kept as %s is %i dB', (text, volumeDb) => {
  expect(volumeIn(text)).toBe(volumeDb);
});
