import { describe, expect, it } from 'vitest';
import { numberOfText, weaveOf } from './cloth-weave.ts';

describe('the cloth of a course', () => {
  it('is the same for the same text and another for another', () => {
    expect(weaveOf('a course', 20, 12)).toEqual(weaveOf('a course', 20, 12));
    expect(weaveOf('a course', 20, 12)).not.toEqual(weaveOf('another', 20, 12));
  });

  it('hashes as FNV-1a does', () => {
    // Source: draft-eastlake-fnv, test vectors for 32-bit FNV-1a ('' and 'a'); values from memory.
    expect(numberOfText('')).toBe(0x811c9dc5);
    expect(numberOfText('a')).toBe(0xe40c292c);
  });

  it('lets every warp thread go over two rows and under two, as a two-by-two twill does', () => {
    const { over } = weaveOf('twill', 40, 24);
    for (const stretches of over) {
      const inner = stretches.filter(({ first, last }) => first > 0 && last < 39);
      expect(inner.every(({ first, last }) => last - first === 1)).toBe(true);
      expect(inner.length).toBeGreaterThan(7);
    }
  });
});
