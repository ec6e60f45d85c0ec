import { expect, test } from 'vitest';
import { lineId, markNotes, noteId, type NoteId, type Operation, type Split } from '../../../music/index.ts';
import { line, meter, note } from '../../../tests/support/score-builders.ts';
import { splitOf } from '../../../tests/support/split-builders.ts';
import { countSplit } from './counts.ts';
import { Suggesting } from './suggesting.ts';
import type { TableState } from './table-state.ts';

const [melody, bass] = [lineId('melody'), lineId('bass')];
const four = ['C4', 'E4', 'G4', 'E4'].map((name) => note(name, 1));
/** Two bars that are the same, then one that is not. */
const score = line(meter(4, 4), ...four, ...four, ...['B3', 'B3', 'B3', 'B3'].map((name) => note(name, 1)));

const proposedAll: Split = {
  ...splitOf({ melody: [], bass: [] }),
  marks: new Map(
    score.notes.map(({ id }) => [id, { lines: [melody], from: 'proposal', confidence: 0.9, revision: 1 }] as const),
  ),
};

const moving = (...notes: readonly string[]): Operation => ({
  kind: 'acceptProposal',
  lines: [],
  changes: notes.map((id) => ({
    note: noteId(id),
    before: { lines: [melody], from: 'proposal', confidence: 0.9 },
    after: { lines: [bass], from: 'proposal', confidence: 0.8 },
  })),
});

/** A table's suggesting with a clock wound by hand and a proposer that only notes what it is asked. */
function seat(split: Split = proposedAll) {
  const due = new Set<{ readonly delayMs: number; readonly deed: () => void }>();
  const asked: ('split' | 'ready')[] = [];
  const submitted: Operation[] = [];
  let failures = 0;
  let state = {
    room: { split },
    score,
    counts: countSplit(score, split),
    selected: new Set<NoteId>(),
    cursor: null,
    suggestion: null,
    same: null,
    isAsking: false,
    problem: null,
  } as unknown as TableState;
  const suggesting = new Suggesting({
    timers: {
      after: (delayMs, deed) => {
        const entry = { delayMs, deed };
        due.add(entry);
        return () => void due.delete(entry);
      },
    },
    proposer: {
      ask: () => void asked.push('split'),
      makeReady: () => void asked.push('ready'),
      forget: () => undefined,
      fail: () => (failures += 1),
    },
    state: () => state,
    change: (changes) => (state = { ...state, ...changes }),
    submit: (operation) => void submitted.push(operation),
  });
  return {
    suggesting,
    asked,
    submitted,
    now: () => state,
    set: (changes: Partial<TableState>) => (state = { ...state, ...changes }),
    failures: () => failures,
    /** Lets marks rest: everything due within a second is done. */
    rest: () => {
      for (const entry of [...due]) if (entry.delayMs < 1000 && due.delete(entry)) entry.deed();
    },
    wait: () => {
      for (const entry of [...due]) if (due.delete(entry)) entry.deed();
    },
  };
}

/** The split after a person has put notes on the bass. */
function withPins(split: Split, ...notes: readonly string[]): Split {
  const operation = markNotes(split, notes.map(noteId), [bass]);
  if (operation?.kind !== 'markNotes') throw new Error('nothing to mark');
  const marks = new Map(split.marks);
  for (const { note: id, after } of operation.changes) marks.set(id, { ...after, revision: 2 });
  return { ...split, marks };
}

function corrected(...notes: readonly string[]) {
  const table = seat(withPins(proposedAll, ...notes));
  table.suggesting.corrected(notes.map(noteId));
  return table;
}

test('after marks have come to rest one question is asked; its answer is shown, and taken as it is', () => {
  const table = corrected('n1');
  table.suggesting.corrected([noteId('n1')]);
  expect(table.asked).toEqual([]);
  table.rest();
  expect(table.asked).toEqual(['split']);
  table.suggesting.answered({ request: 1, operation: moving('n5', 'n6') });
  expect(table.now().suggestion).toMatchObject({ from: 'offered', isFolded: false });
  expect([...(table.now().suggestion?.follows ?? [])]).toEqual(['n5', 'n6']);
  table.suggesting.follow();
  expect(table.submitted).toEqual([moving('n5', 'n6')]);
  expect(table.now().suggestion).toBeNull();
});

test('an answer that nobody waits for any more is dropped, as after undo', () => {
  const table = corrected('n1');
  table.rest();
  table.suggesting.stop();
  table.suggesting.answered({ request: 1, operation: moving('n5') });
  expect(table.now().suggestion).toBeNull();
});

test('what was left is not offered again; asked for, it is shown', () => {
  const table = corrected('n1');
  table.rest();
  table.suggesting.answered({ request: 1, operation: moving('n5') });
  table.suggesting.leave();
  table.suggesting.corrected([noteId('n1')]);
  table.rest();
  table.suggesting.answered({ request: 2, operation: moving('n5') });
  expect(table.now().suggestion).toBeNull();
  table.suggesting.ask();
  table.suggesting.answered({ request: 3, operation: moving('n5') });
  expect([...(table.now().suggestion?.follows ?? [])]).toEqual(['n5']);
});

test('what would turn over more than a quarter of the song is told of, and shown when somebody wants to see it', () => {
  const table = corrected('n1');
  table.rest();
  table.suggesting.answered({ request: 1, operation: moving('n5', 'n6', 'n7', 'n8') });
  expect(table.now().suggestion?.isFolded).toBe(true);
  table.suggesting.follow();
  expect(table.submitted).toEqual([]);
  table.suggesting.unfold();
  table.suggesting.follow();
  expect(table.submitted).toHaveLength(1);
});

test('a colleague’s mark takes its note out of what is shown, and everything is worked out again', () => {
  const table = corrected('n1');
  table.rest();
  table.suggesting.answered({ request: 1, operation: moving('n5', 'n6') });
  table.set({ room: { ...table.now().room, split: withPins(table.now().room.split, 'n5') } });
  table.suggesting.overtaken();
  expect([...(table.now().suggestion?.follows ?? [])]).toEqual(['n6']);
  const before = table.asked.length;
  table.rest();
  expect(table.asked.slice(before)).toEqual(['split']);
  const split = table.now().room.split;
  const retired = { ...split, lines: split.lines.map((one) => ({ ...one, isRetired: one.id === bass })) };
  table.set({ room: { ...table.now().room, split: retired } });
  table.suggesting.overtaken();
  expect(table.now().suggestion).toBeNull();
});

test('a worker that is lost is told in a sentence where somebody waited for it, after a minute without an answer too', () => {
  const table = seat();
  table.suggesting.failed();
  expect(table.now().problem).toBeNull();
  table.suggesting.ask();
  expect(table.now().isAsking).toBe(true);
  table.wait();
  expect(table.failures()).toBe(1);
  table.suggesting.failed();
  expect(table.now()).toMatchObject({
    isAsking: false,
    problem: expect.stringContaining('Your marks are kept') as string,
  });
});

test('the same is offered for like bars after a mark, shown first and then done as one person’s mark', () => {
  const table = corrected('n1');
  table.rest();
  expect(table.now().same?.bars.map(({ bar }) => bar)).toEqual(['b2']);
  table.suggesting.doSame();
  expect(table.now().suggestion).toMatchObject({ from: 'same' });
  expect([...(table.now().suggestion?.follows ?? [])]).toEqual(['n5']);
  expect(table.submitted).toEqual([]);
  table.suggesting.doSame();
  expect(table.submitted).toEqual([
    {
      kind: 'markNotes',
      changes: [
        {
          note: 'n5',
          before: { lines: [melody], from: 'proposal', confidence: 0.9 },
          after: { lines: [bass], from: 'person', confidence: null },
        },
      ],
    },
  ]);
});

test('with notes chosen the same can be asked for whoever put them there; unasked it is offered only for people’s marks', () => {
  const other = new Map(proposedAll.marks).set(noteId('n2'), {
    lines: [bass],
    from: 'proposal',
    confidence: 0.5,
    revision: 1,
  });
  const table = seat({ ...proposedAll, marks: other });
  table.set({ selected: new Set([noteId('n2')]) });
  table.suggesting.wentOn();
  table.rest();
  expect(table.now().same).toBeNull();
  table.suggesting.doSame();
  expect([...(table.now().suggestion?.follows ?? [])]).toEqual(['n6']);
});
