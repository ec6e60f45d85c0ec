import { expect, test } from 'vitest';
import { lineId, noteId, type Mark, type Operation, type Split } from '../../../music/index.ts';
import type { Timers } from '../../lib/room/throttle.ts';
import { FollowUp } from './follow-up.ts';
import { isWorthOffering, leaving, suggestionOf } from './suggestion.ts';

const [high, low] = [lineId('high'), lineId('low')];
const proposedMark = (lines: readonly ReturnType<typeof lineId>[], confidence = 0.6) => ({
  lines: [...lines],
  from: 'proposal' as const,
  confidence,
});
const mark = (line: ReturnType<typeof lineId>, from: Mark['from']): Mark => ({
  lines: [line],
  from,
  confidence: from === 'person' ? null : 0.6,
  revision: 1,
});
const split: Split = {
  revision: 1,
  lines: [],
  marks: new Map([
    [noteId('n1'), mark(high, 'person')],
    [noteId('n2'), mark(high, 'proposal')],
    [noteId('n3'), mark(high, 'proposal')],
    [noteId('n4'), mark(low, 'proposal')],
  ]),
};
const proposed: Operation = {
  kind: 'acceptProposal',
  lines: [],
  changes: [
    { note: noteId('n1'), before: proposedMark([high]), after: proposedMark([low]) },
    { note: noteId('n2'), before: proposedMark([high]), after: proposedMark([low]) },
    { note: noteId('n3'), before: proposedMark([high]), after: proposedMark([high], 0.9) },
    { note: noteId('n4'), before: proposedMark([low]), after: proposedMark([high]) },
  ],
};

/** A clock wound by hand. */
function windable(): Timers & { readonly wind: () => void } {
  let deed: (() => void) | null = null;
  return {
    after: (_, next) => {
      deed = next;
      return () => (deed = null);
    },
    wind: () => {
      const due = deed;
      deed = null;
      due?.();
    },
  };
}

test('only notes that come to other lines follow; what a person marked does not', () => {
  const suggestion = suggestionOf(proposed, split, new Map(), 'offered');
  expect([...(suggestion?.follows ?? [])]).toEqual(['n2', 'n4']);
  const changes = suggestion?.operation.kind === 'acceptProposal' ? suggestion.operation.changes : [];
  expect(changes.map(({ note }) => note)).toEqual(['n2', 'n3', 'n4']);
});

test('what was left is not suggested again, unless another line is meant', () => {
  const first = suggestionOf(proposed, split, new Map(), 'offered');
  const left = first === null ? new Map() : leaving(new Map(), first);
  expect(suggestionOf(proposed, split, left, 'offered')?.follows.size).toBe(0);
  const other: Operation = {
    ...proposed,
    changes: [{ note: noteId('n4'), before: proposedMark([low]), after: proposedMark([]) }],
  };
  expect([...(suggestionOf(other, split, left, 'offered')?.follows ?? [])]).toEqual(['n4']);
});

test('a suggestion that makes a line or turns over much of the song is not offered unasked', () => {
  const small = suggestionOf(proposed, split, new Map(), 'offered');
  if (small === null) throw new Error('a proposal is a suggestion');
  expect(isWorthOffering(small, 8)).toBe(true);
  expect(isWorthOffering(small, 7)).toBe(false);
  const line = {
    id: low,
    name: 'Bass',
    role: 'bass',
    dye: 'indigo',
    letter: 'B',
    orderKey: 'b',
    isRetired: false,
  } as const;
  const withLine = suggestionOf({ ...proposed, lines: [line] }, split, new Map(), 'offered');
  expect(withLine !== null && isWorthOffering(withLine, 8)).toBe(false);
});

test('a proposal is asked for once, when marks rest and are saved; a newer mark drops the answer', async () => {
  const timers = windable();
  const answers: ((answer: { readonly operation: Operation }) => void)[] = [];
  const told: Operation[] = [];
  let isSaved = false;
  const followUp = new FollowUp({
    timers,
    ask: () => new Promise((resolve) => answers.push(resolve)),
    isSaved: () => isSaved,
    onProposal: (operation) => told.push(operation),
  });
  followUp.marked();
  followUp.marked();
  timers.wind();
  expect(answers).toHaveLength(0);
  isSaved = true;
  followUp.saved();
  followUp.saved();
  expect(answers).toHaveLength(1);
  followUp.marked();
  answers[0]?.({ operation: proposed });
  await Promise.resolve();
  await Promise.resolve();
  expect(told).toEqual([]);
  timers.wind();
  answers[1]?.({ operation: proposed });
  await new Promise<void>((resolve) => queueMicrotask(() => queueMicrotask(() => queueMicrotask(resolve))));
  expect(told).toEqual([proposed]);
});
