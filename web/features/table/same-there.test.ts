import { expect, test } from 'vitest';
import { lineId, noteId, type Mark, type Split } from '../../../music/index.ts';
import { line, meter, note } from '../../../tests/support/score-builders.ts';
import { splitOf } from '../../../tests/support/split-builders.ts';
import { peoplesNotesOf, sameThere } from './same-there.ts';

const quarters = (...names: readonly string[]) => names.map((name) => note(name, 1));
/** A bar, the same again, the same a fourth up, nearly the same, another one. */
const score = line(
  meter(4, 4),
  ...quarters('C4', 'E4', 'G4', 'E4'),
  ...quarters('C4', 'E4', 'G4', 'E4'),
  ...quarters('F4', 'A4', 'C5', 'A4'),
  ...quarters('C4', 'E4', 'A4', 'E4'),
  ...quarters('C4', 'C4', 'C4', 'B3'),
);
const mark = (of: string, from: Mark['from'] = 'proposal'): Mark => ({
  lines: [lineId(of)],
  from,
  confidence: from === 'person' ? null : 0.9,
  revision: 1,
});
const splitWith = (marks: Readonly<Record<string, Mark>>): Split => ({
  ...splitOf({ melody: [], bass: [] }),
  marks: new Map([
    ...score.notes.map(({ id }) => [id, mark('melody')] as const),
    ...Object.entries(marks).map(([id, one]) => [noteId(id), one] as const),
  ]),
});

test('the notes that correspond are marked by a person’s word in every like bar', () => {
  const split = splitWith({ n1: mark('bass', 'person'), n3: mark('melody', 'person') });
  const found = sameThere(score, split, peoplesNotesOf(score, split, score.bars[0]!.id));
  expect(found?.bars.map(({ bar, likeness }) => `${bar} ${likeness}`)).toEqual([
    'b2 exact',
    'b3 transposed',
    'b4 varied',
  ]);
  expect([...(found?.follows ?? [])]).toEqual(['n5', 'n9', 'n13']);
  expect(found?.operation.changes.map(({ note: id, after }) => `${id} ${after.lines.join()} ${after.from}`)).toEqual([
    'n5 bass person',
    'n7 melody person',
    'n9 bass person',
    'n11 melody person',
    'n13 bass person',
    'n15 melody person',
  ]);
});

test('bars that are only nearly alike may be left out', () => {
  const split = splitWith({ n1: mark('bass', 'person') });
  const found = sameThere(score, split, [noteId('n1')], false);
  expect(found?.bars.map(({ bar }) => bar)).toEqual(['b2', 'b3']);
});

test('what people marked there stays, and those that say otherwise are counted', () => {
  const split = splitWith({
    n1: mark('bass', 'person'),
    n2: mark('bass', 'person'),
    n5: mark('melody', 'person'),
    n9: mark('bass', 'person'),
    n10: mark('bass', 'person'),
  });
  const found = sameThere(score, split, [noteId('n1'), noteId('n2')]);
  expect(found?.operation.changes.map(({ note: id }) => id)).toEqual(['n6', 'n13', 'n14']);
  expect(found?.bars.map(({ bar }) => bar)).toEqual(['b2', 'b4']);
  expect(found?.leftCount).toBe(1);
});

test('nothing is offered where nothing would change, for notes on no line, or for a whole song', () => {
  expect(sameThere(score, splitWith({}), [noteId('n1')])).toBeNull();
  expect(sameThere(score, splitOf({ melody: [] }), [noteId('n1')])).toBeNull();
  const long = line(meter(4, 4), ...Array.from({ length: 10 }, () => quarters('C4', 'E4', 'G4', 'E4')).flat());
  const split = { ...splitOf({ melody: [], bass: [] }), marks: new Map([[noteId('n1'), mark('bass', 'person')]]) };
  expect(sameThere(long, split, [noteId('n1')])?.bars).toHaveLength(9);
  const all = { ...split, marks: new Map(long.notes.map(({ id }) => [id, mark('bass', 'person')] as const)) };
  expect(
    sameThere(
      long,
      all,
      long.notes.map(({ id }) => id),
    ),
  ).toBeNull();
});
