import { createHash } from 'node:crypto';
import { expect, it } from 'vitest';
import { decided } from './decided.ts';
import { splitTexts } from './split-text.ts';

it('the split is the same everywhere, to the bit', () => {
  const hashes = splitTexts().map((text) => createHash('sha256').update(text).digest('hex').slice(0, 16));
  expect(hashes).toEqual(decided.splits);
});
