import { createHash } from 'node:crypto';
import { expect, it } from 'vitest';
import { mixOfOnly, renderPerformance } from '../../music/index.ts';
import { littlePerformance } from '../browser/sound-page/little-performance.ts';
import { decided } from './decided.ts';

it.each([44_100, 48_000] as const)('sound is the same everywhere, at %i Hz', (sampleRate) => {
  const performance = littlePerformance();
  const { left, right } = renderPerformance(performance, mixOfOnly(performance, performance.lines, true), {
    sampleRate,
  });
  const hash = createHash('sha256');
  for (const side of [left, right]) hash.update(new Uint8Array(side.buffer, side.byteOffset, side.byteLength));
  expect(hash.digest('hex').slice(0, 16)).toBe(decided.sound[sampleRate]);
});
