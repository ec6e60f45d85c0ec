import { describe, expect, it } from 'vitest';
import { ownSingingIn } from './own-singing.ts';

const untold = { labels: 'names', verse: null, voice: null };

describe('what is kept of singing', () => {
  it('is read as it was written', () => {
    const own = { labels: 'words', verse: '2', voice: { lowMidi: 48, highMidi: 67 } };
    expect(ownSingingIn(JSON.stringify(own))).toEqual(own);
    expect(ownSingingIn('{"labels":"words","voice":null}')).toEqual({ labels: 'words', verse: null, voice: null });
  });

  it.each([
    null,
    '',
    '{',
    '{"labels":"runes","voice":null}',
    '{"labels":"names","voice":{"lowMidi":60,"highMidi":50}}',
  ])('is the usual where %s stands', (text) => expect(ownSingingIn(text)).toEqual(untold));
});
