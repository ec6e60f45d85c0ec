import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Operation } from '../../music/operations/operation.ts';
import { snapshotOf } from '../../music/operations/snapshot.ts';
import type { Split } from '../../music/operations/split.ts';
import { anyOperation, ids, startingSplit } from '../support/any-operation.ts';
import { fixedSeed } from '../support/property-seed.ts';
import { Table, type Seat } from './table.ts';

type Deed =
  | { readonly kind: 'do'; readonly operation: Operation }
  | {
      readonly kind:
        'undo' | 'redo' | 'take' | 'receive' | 'disconnect' | 'reload' | 'loseNews' | 'resend' | 'repeatNews';
    }
  | { readonly kind: 'reconnect'; readonly wantsSnapshot: boolean };

const deed: fc.Arbitrary<Deed> = fc.oneof(
  { weight: 6, arbitrary: anyOperation.map((operation): Deed => ({ kind: 'do', operation })) },
  { weight: 3, arbitrary: fc.constantFrom<Deed>({ kind: 'undo' }, { kind: 'redo' }) },
  { weight: 12, arbitrary: fc.constantFrom<Deed>({ kind: 'take' }, { kind: 'receive' }) },
  { weight: 2, arbitrary: fc.constantFrom<Deed>({ kind: 'disconnect' }, { kind: 'reload' }, { kind: 'loseNews' }) },
  { weight: 2, arbitrary: fc.constantFrom<Deed>({ kind: 'resend' }, { kind: 'repeatNews' }) },
  { weight: 3, arbitrary: fc.boolean().map((wantsSnapshot): Deed => ({ kind: 'reconnect', wantsSnapshot })) },
);

const script = fc.array(fc.tuple(fc.nat({ max: 2 }), deed), { minLength: 20, maxLength: 160 });

/** A message of the fan-out that never arrives, as when a relay between two servers fails. */
function loseNews(seat: Seat): void {
  const index = seat.down.findIndex(({ type }) => type === 'ordered' || type === 'refused');
  if (index >= 0) seat.down.splice(index, 1);
}

function repeatNews(seat: Seat): void {
  const message = seat.down.find(({ type }) => type === 'ordered');
  if (message !== undefined) seat.down.push(message);
}

function resend(seat: Seat): void {
  const [submission] = seat.replica.pending;
  if (submission !== undefined && seat.isConnected) seat.up.push({ type: 'submit', submission });
}

function perform(table: Table, seat: Seat, what: Deed): void {
  if (what.kind === 'do') seat.do(what.operation);
  else if (what.kind === 'undo') seat.send(seat.replica.undo());
  else if (what.kind === 'redo') seat.send(seat.replica.redo());
  else if (what.kind === 'take') table.takeFrom(seat);
  else if (what.kind === 'receive') seat.receive();
  else if (what.kind === 'disconnect') seat.disconnect();
  else if (what.kind === 'reload') seat.reload();
  else if (what.kind === 'reconnect') seat.reconnect(what.wantsSnapshot);
  else if (what.kind === 'loseNews') loseNews(seat);
  else if (what.kind === 'resend') resend(seat);
  else repeatNews(seat);
}

function bringTogether(table: Table): void {
  for (const seat of table.seats) {
    if (seat.isConnected) seat.join(false);
    else seat.reconnect(false);
  }
  table.settle();
}

const told = (split: Split): unknown => {
  const { revision, lines, marks } = snapshotOf(split);
  const byNote = [...marks].sort(([left], [right]) => (left < right ? -1 : 1));
  return { revision, lines: [...lines].sort((left, right) => (left.id < right.id ? -1 : 1)), marks: byNote };
};

const newTable = (): Table =>
  new Table(startingSplit, ['ann', 'ben', 'eva'], (note) => note !== 'n6' && ids.notes.includes(note));

describe('replicas', () => {
  it('[R10] come to the same split as the authority, whatever was delayed, lost, repeated or cut off', () => {
    fc.assert(
      fc.property(script, (steps) => {
        const table = newTable();
        for (const [index, what] of steps) perform(table, table.seats[index]!, what);
        bringTogether(table);
        for (const { replica } of table.seats) {
          expect(replica.pending).toEqual([]);
          expect(replica.needsRejoin).toBe(false);
          expect(told(replica.view())).toEqual(told(table.split));
        }
      }),
      { seed: fixedSeed, numRuns: 400 },
    );
  });

  it('[R10] lose no work: everything submitted is written once, or lies in the tray', () => {
    fc.assert(
      fc.property(script, (steps) => {
        const table = newTable();
        for (const [index, what] of steps) perform(table, table.seats[index]!, what);
        bringTogether(table);
        for (const { submitted, replica } of table.seats) {
          const writtenIds = table.log.map(({ id }) => id);
          const trayIds = replica.tray.map(({ submission }) => submission.id);
          for (const { id } of submitted) {
            expect([...writtenIds, ...trayIds].filter((known) => known === id)).toEqual([id]);
          }
        }
      }),
      { seed: fixedSeed, numRuns: 200 },
    );
  });

  it('[R11] an undo or redo writes only notes whose present mark is one of that person', () => {
    fc.assert(
      fc.property(script, (steps) => {
        const table = newTable();
        for (const [index, what] of steps) {
          const seat = table.seats[index]!;
          const { pending, confirmed } = seat.replica;
          const pendingNotes = new Set(
            pending.flatMap(({ operation }) =>
              'changes' in operation ? operation.changes.map(({ note }) => note) : [],
            ),
          );
          perform(table, seat, what);
          const sent = seat.replica.pending.at(-1);
          if ((what.kind !== 'undo' && what.kind !== 'redo') || sent === undefined || sent === pending.at(-1)) continue;
          const notes = 'changes' in sent.operation ? sent.operation.changes.map(({ note }) => note) : [];
          for (const note of notes.filter((candidate) => !pendingNotes.has(candidate))) {
            const writer = table.log[(confirmed.marks.get(note)?.revision ?? 0) - 1]?.by;
            expect(writer).toBe(seat.person);
          }
        }
      }),
      { seed: fixedSeed, numRuns: 400 },
    );
  });

  it('the shown split is the same object while nothing changes', () => {
    fc.assert(
      fc.property(script, (steps) => {
        const table = newTable();
        for (const [index, what] of steps) {
          perform(table, table.seats[index]!, what);
          for (const { replica } of table.seats) expect(replica.view()).toBe(replica.view());
        }
      }),
      { seed: fixedSeed, numRuns: 20 },
    );
  });
});
