import { expect, test } from 'vitest';
import { lineId, noteId, type Mark, type Split } from '../../../music/index.ts';
import { line, meter, note } from '../../../tests/support/score-builders.ts';
import { splitOf } from '../../../tests/support/split-builders.ts';
import { doubtWords, placeOfNoteWords } from './doubt-words.ts';
import { whyWords } from './line-why.tsx';
import { sameThere } from './same-there.ts';
import { sameBarsWords, sameDetailWords } from './slip-words.ts';

const quarters = (...names: readonly string[]) => names.map((name) => note(name, 1));
const bars = Array.from({ length: 3 }, () => quarters('C4', 'E4', 'G4', 'E4')).flat();
const score = line(meter(4, 4), ...bars, ...quarters('F4', 'A4', 'C5', 'A4'));
const mark = (of: string | null, confidence: number | null): Mark => ({
  lines: of === null ? [] : [lineId(of)],
  from: confidence === null ? 'person' : 'proposal',
  confidence,
  revision: 1,
});
const split: Split = {
  ...splitOf({ melody: [], bass: [] }),
  marks: new Map([
    ...score.notes.map(({ id }) => [id, mark('melody', 0.95)] as const),
    [noteId('n2'), mark('bass', 0.62)],
    [noteId('n3'), mark(null, 0.9)],
    [noteId('n4'), mark('bass', null)],
  ]),
};

test('a note that is doubted is named with how sure it is and what speaks against it', () => {
  expect(placeOfNoteWords(score, split, noteId('n2'))).toBe('Bar 1, beat 2, E4, bass');
  expect(doubtWords(score, split, noteId('n2'))).toBe('Unsure: right about 6 times in 10. The melody is as near.');
  expect(doubtWords(score, split, noteId('n3'))).toBe('On no line yet.');
  expect(doubtWords(score, split, noteId('n1'))).toBeNull();
  expect(doubtWords(score, split, noteId('n4'))).toBeNull();
});

test('like bars are named up to four, with how like they are and what stays', () => {
  const same = sameThere(score, split, [noteId('n4')]);
  if (same === null) throw new Error('there are like bars');
  expect(sameBarsWords({ score }, same)).toBe('bars 2–4');
  expect(sameDetailWords({ score }, { ...same, leftCount: 2 })).toBe(
    '2–3 exactly alike; 4 alike at another pitch. Leaves 2 notes that people marked.',
  );
  const many = { ...same, bars: [...same.bars, ...same.bars] };
  expect(sameBarsWords({ score }, many)).toBe('the 6 bars like this one');
});

test('a line’s role is told with its reason, and what its notes speak for where that is another', () => {
  const bass = { role: 'bass', reason: 'the lowest line' } as const;
  expect(whyWords('bass', bass)).toBe('The bass: the lowest line.');
  expect(whyWords('melody', bass)).toBe('Called the melody; by its notes the bass: the lowest line.');
  expect(whyWords('melody', undefined)).toBe('No notes yet.');
});
