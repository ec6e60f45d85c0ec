import { expect, test } from 'vitest';
import { lineId, noteId, type Split } from '../../../music/index.ts';
import { splitOf } from '../../../tests/support/split-builders.ts';
import { saysTheSame } from './split-change.ts';
import { markedAsRight } from './table-picking.ts';

const proposed = { lines: [lineId('bass')], from: 'proposal', confidence: 0.4, revision: 1 } as const;
const split: Split = {
  ...splitOf({ melody: ['n1'], bass: [] }),
  marks: new Map([
    ...splitOf({ melody: ['n1'] }).marks,
    [noteId('n2'), proposed],
    [noteId('n3'), { ...proposed, lines: [] }],
  ]),
};

test('what is right becomes a person’s mark on the lines it has; what people said or what is on no line is passed over', () => {
  expect(markedAsRight(split, ['n1', 'n2', 'n3'].map(noteId))).toEqual({
    kind: 'markNotes',
    changes: [
      {
        note: 'n2',
        before: { lines: ['bass'], from: 'proposal', confidence: 0.4 },
        after: { lines: ['bass'], from: 'person', confidence: null },
      },
    ],
  });
  expect(markedAsRight(split, ['n1', 'n3'].map(noteId))).toBeNull();
});

test('a split says the same under another revision, not with another word, another line or a line put away', () => {
  const again = new Map([...split.marks].map(([id, mark]) => [id, { ...mark, revision: 9 }] as const));
  expect(saysTheSame(split, { ...split, revision: 9, marks: again })).toBe(true);
  expect(saysTheSame(split, { ...split, marks: new Map(split.marks).set(noteId('n4'), proposed) })).toBe(false);
  const pinned = { ...proposed, from: 'person', confidence: null } as const;
  expect(saysTheSame(split, { ...split, marks: new Map(split.marks).set(noteId('n2'), pinned) })).toBe(false);
  const retired = split.lines.map((one) => ({ ...one, isRetired: true }));
  expect(saysTheSame(split, { ...split, lines: retired })).toBe(false);
});
