import { createHash } from 'node:crypto';
import { expect, it } from 'vitest';
import { separateVoices } from '../../music/split/separate-voices.ts';
import { sameSplits } from './split-notes.ts';

/** Labels and confidences as they were last decided; they change only when the splitting is meant to. */
const decided: readonly string[] = ['409aff07e4326875', '421b907cd80ed2f9', '5ea61fcfb850eda3'];

it('the split is the same everywhere, to the bit', () => {
  const hashes = sameSplits.map(({ notes, options }) => {
    const { labels, confidences } = separateVoices(notes, options);
    return createHash('sha256')
      .update(JSON.stringify([labels, confidences]))
      .digest('hex')
      .slice(0, 16);
  });
  expect(hashes).toEqual(decided);
});
