import { describe, expect, it } from 'vitest';
import { meter, note, voices } from '../../tests/support/score-builders.ts';
import { noteId } from '../basis/ids.ts';
import type { Lyric } from './marks.ts';
import { versesOf, wordsOfVerse } from './verses.ts';

const lyric = (id: string, verse: string, text: string, syllabic: Lyric['syllabic'] = 'single'): Lyric => ({
  note: noteId(id),
  verse,
  text,
  syllabic,
  isExtended: false,
});

const bars = [{ meter: meter(2, 4) }, { meter: meter(2, 4) }];
// n1 and n3 are the upper voice's first bar, n4 and n6 its second; n2 and n5 are the lower voice's.
const score = {
  ...voices(bars, [note('C5', 1), note('D5', 1), note('E5', 1), note('F5', 1)], [note('C4', 2), note('D4', 2)]),
  lyrics: [
    lyric('n1', '1', 'Mor', 'begin'),
    lyric('n3', '1', 'ning', 'end'),
    lyric('n1', '2', 'Eve'),
    lyric('n4', '1', 'sing'),
    lyric('n6', '1', 'on'),
    lyric('n2', '2', 'low'),
  ],
};

describe('verses', () => {
  it('come by their numbers, then names as they come', () => {
    const words = ['chorus', '10', '2', 'bridge', '1'].map((verse) => lyric('n1', verse, 'la'));
    expect(versesOf([...words, lyric('n1', '3', ' ')])).toEqual(['1', '2', '10', 'chorus', 'bridge']);
  });

  it('are sung one at a time, with what a voice has once where the verse is silent for a whole bar', () => {
    const sung = (verse: string | null) => Object.fromEntries(wordsOfVerse(score, verse));
    const refrain = { n2: 'low', n4: 'sing', n6: 'on' };
    expect(sung('1')).toEqual({ n1: 'Mor-', n3: 'ning', ...refrain });
    expect(sung('2')).toEqual({ n1: 'Eve', ...refrain });
    expect([sung(null), sung('9')]).toEqual([sung('1'), sung('1')]);
  });
});
