import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { mixOfOnly, renderPerformance } from '../../music/index.ts';
import { littlePerformance } from '../browser/sound-page/little-performance.ts';

/**
 * The sound as it was last decided. It changes only when the sound is meant to; the same number must come out of every
 * engine and release of Node. tests/browser/sound.test.ts compares Chromium's worklet with Node sample by sample.
 */
const decided: Readonly<Record<number, string>> = { 44_100: '7a93967e723851b0', 48_000: '0b869fe3508781bc' };

describe('sound is the same everywhere', () => {
  it.each([44_100, 48_000])('at %i Hz', (sampleRate) => {
    const performance = littlePerformance();
    const { left, right } = renderPerformance(performance, mixOfOnly(performance, performance.lines, true), {
      sampleRate,
    });
    const hash = createHash('sha256');
    for (const side of [left, right]) hash.update(new Uint8Array(side.buffer, side.byteOffset, side.byteLength));
    expect(hash.digest('hex').slice(0, 16)).toBe(decided[sampleRate]);
  });
});
