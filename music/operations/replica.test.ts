import { describe, expect, it } from 'vitest';
import { lineId, noteId, operationId } from '../basis/ids.ts';
import { lineNamed, splitOf } from '../../tests/support/split-builders.ts';
import { Table, type Seat } from '../../tests/convergence/table.ts';
import { markNotes } from './make-operation.ts';
import { Replica } from './replica.ts';
import { linesOfNote } from './split.ts';

const start = splitOf({ melody: ['n1', 'n2'], bass: ['n3'], taps: [] });

function seated(): { readonly table: Table; readonly ann: Seat; readonly ben: Seat } {
  const table = new Table(start, ['ann', 'ben'], (note) => note !== 'n9');
  table.settle();
  return { table, ann: table.seats[0]!, ben: table.seats[1]! };
}

const mark = (seat: Seat, notes: readonly string[], ...lines: readonly string[]): void =>
  seat.do(markNotes(seat.replica.view(), notes.map(noteId), lines.map(lineId))!);
const shown = (seat: Seat, note: string): string => linesOfNote(seat.replica.view(), noteId(note)).join('+');

describe('a replica', () => {
  it('shows its own work at once and the same work once more after the answer', () => {
    const { table, ann, ben } = seated();
    mark(ann, ['n1'], 'bass');
    expect([shown(ann, 'n1'), shown(ben, 'n1')]).toEqual(['bass', 'melody']);
    table.settle();
    expect([shown(ann, 'n1'), shown(ben, 'n1')]).toEqual(['bass', 'bass']);
    expect(ann.replica.pending).toEqual([]);
  });

  it('takes no news before its join is answered, for it holds nothing to put them on', () => {
    const table = new Table(start, ['ann', 'ben']);
    const [ann, ben] = [table.seats[0]!, table.seats[1]!];
    table.takeFrom(ann);
    ann.receive();
    mark(ann, ['n1'], 'bass');
    table.takeFrom(ann);
    ben.receive();
    expect(ben.replica.needsRejoin).toBe(true);
    table.settle();
    expect(shown(ben, 'n2')).toBe('melody');
  });

  it('asks once more for news that have overtaken the answer to its join', () => {
    const { ann } = seated();
    mark(ann, ['n1'], 'bass');
    const [submission] = ann.replica.pending;
    const late = new Replica({ person: 'eva', newId: () => operationId('eva-1') });
    late.receiveOrdered({ ...submission!, revision: 1, by: 'ann', byName: 'ANN' });
    late.receiveSnapshot({ ...start, revision: 0 });
    expect([late.needsRejoin, late.knownRevision]).toEqual([true, 0]);
    late.receiveCatchUp([]);
    expect(late.needsRejoin).toBe(false);
  });

  it('asks to join again when it sees a gap', () => {
    const { table, ann, ben } = seated();
    mark(ann, ['n1'], 'bass');
    mark(ann, ['n2'], 'bass');
    table.takeFrom(ann);
    table.takeFrom(ann);
    ben.down.shift();
    ben.receive();
    expect(ben.replica.needsRejoin).toBe(true);
    expect(ben.replica.knownRevision).toBe(0);
    table.settle();
    expect(shown(ben, 'n1')).toBe('bass');
  });

  it('[R11] takes back and does again, as often as wanted', () => {
    const { table, ann } = seated();
    mark(ann, ['n1'], 'bass');
    mark(ann, ['n1', 'n2'], 'taps');
    table.settle();
    ann.send(ann.replica.undo());
    expect([shown(ann, 'n1'), shown(ann, 'n2')]).toEqual(['bass', 'melody']);
    table.settle();
    ann.send(ann.replica.undo());
    expect(shown(ann, 'n1')).toBe('melody');
    expect(ann.replica.canUndo).toBe(false);
    ann.send(ann.replica.redo());
    ann.send(ann.replica.redo());
    table.settle();
    expect([shown(ann, 'n1'), shown(ann, 'n2')]).toEqual(['taps', 'taps']);
    expect(ann.replica.canRedo).toBe(false);
  });

  it('[R11] an undo leaves alone what others marked since', () => {
    const { table, ann, ben } = seated();
    mark(ann, ['n1', 'n2'], 'bass');
    table.settle();
    mark(ben, ['n1'], 'taps');
    table.settle();
    ann.send(ann.replica.undo());
    table.settle();
    expect([shown(ben, 'n1'), shown(ben, 'n2')]).toEqual(['taps', 'melody']);
  });

  it('[R11] an undo gives back the mark that was really overwritten, one that came meanwhile', () => {
    const { table, ann, ben } = seated();
    mark(ann, ['n1'], 'bass');
    mark(ben, ['n1'], 'taps');
    table.takeFrom(ben);
    table.settle();
    expect(shown(ben, 'n1')).toBe('bass');
    ann.send(ann.replica.undo());
    table.settle();
    expect(shown(ben, 'n1')).toBe('taps');
  });

  it('[R11] a new mark makes what was undone past recall', () => {
    const { ann } = seated();
    mark(ann, ['n1'], 'bass');
    ann.replica.undo();
    mark(ann, ['n2'], 'bass');
    expect(ann.replica.canRedo).toBe(false);
  });

  it('[R11] the undo of a made line leaves it where others have put notes on it', () => {
    const { table, ann, ben } = seated();
    ann.do({ kind: 'makeLine', line: lineNamed('middle', 3) });
    table.settle();
    mark(ben, ['n1'], 'middle');
    table.settle();
    expect(ann.replica.canUndo).toBe(false);
  });

  it('[R2] the undo of a mark that brought a line back puts the line away again', () => {
    const { table, ann } = seated();
    ann.do({ kind: 'retireLine', line: lineId('taps') });
    table.settle();
    mark(ann, ['n1'], 'taps');
    table.settle();
    expect(ann.replica.view().lines.find(({ id }) => id === 'taps')?.isRetired).toBe(false);
    ann.send(ann.replica.undo());
    table.settle();
    expect(ann.replica.view().lines.find(({ id }) => id === 'taps')?.isRetired).toBe(true);
  });

  it('[R12] tells whose mark lost to whom when both marked one note at once', () => {
    const { table, ann, ben } = seated();
    mark(ann, ['n1', 'n2'], 'bass');
    mark(ben, ['n1'], 'taps');
    table.takeFrom(ann);
    table.settle();
    expect(ann.replica.lostMarks).toEqual([
      { note: 'n1', lostLines: ['bass'], wonLines: ['taps'], by: 'ben', byName: 'BEN', revision: 2 },
    ]);
    expect(ben.replica.lostMarks).toEqual([]);
    ann.replica.dismissLostMarks();
    expect(ann.replica.lostMarks).toEqual([]);
  });

  it('[R12] a mark overwritten by one who had seen it is not lost, only changed', () => {
    const { table, ann, ben } = seated();
    mark(ann, ['n1'], 'bass');
    table.settle();
    mark(ben, ['n1'], 'taps');
    table.settle();
    expect(ann.replica.lostMarks).toEqual([]);
  });

  it('[R13] puts what was refused into the tray, out of the view and out of undo', () => {
    const { table, ann } = seated();
    mark(ann, ['n9'], 'bass');
    table.settle();
    expect(ann.replica.tray).toMatchObject([{ code: 'operation-unknown-note', submission: { id: 'ann-1' } }]);
    expect([shown(ann, 'n9'), ann.replica.canUndo]).toEqual(['', false]);
    ann.replica.dismissRefused(ann.replica.tray[0]!.submission.id);
    expect(ann.replica.tray).toEqual([]);
  });

  it('[R13] takes out of the tray what was written after all, sent twice before its line was there', () => {
    const { table, ann, ben } = seated();
    ben.replica.receiveOrdered({
      id: operationId('ann-9'),
      baseRevision: 0,
      operation: { kind: 'makeLine', line: lineNamed('late') },
      revision: 1,
      by: 'ann',
      byName: 'ANN',
    });
    mark(ben, ['n1'], 'late');
    const [submission] = ben.replica.pending;
    table.takeFrom(ben);
    ben.receive();
    expect(ben.replica.tray).toHaveLength(1);
    ann.do({ kind: 'makeLine', line: lineNamed('late') });
    table.takeFrom(ann);
    ben.up.push({ type: 'submit', submission: submission! });
    table.settle();
    expect([table.log.length, ben.replica.tray.length, shown(ben, 'n1')]).toEqual([2, 0, 'late']);
  });

  it('[R13] keeps unsent work over a reload and sends it once', () => {
    const { table, ann, ben } = seated();
    ann.disconnect();
    mark(ann, ['n1'], 'bass');
    ann.reload();
    ann.reconnect(false);
    table.settle();
    expect([shown(ann, 'n1'), shown(ben, 'n1'), table.log.length]).toEqual(['bass', 'bass', 1]);
  });

  it('[R11] still undoes after a snapshot what nobody has overwritten', () => {
    const { table, ann, ben } = seated();
    mark(ann, ['n1', 'n2'], 'bass');
    table.settle();
    ann.disconnect();
    mark(ben, ['n1'], 'taps');
    table.settle();
    ann.reconnect(true);
    table.settle();
    ann.send(ann.replica.undo());
    table.settle();
    expect([shown(ben, 'n1'), shown(ben, 'n2')]).toEqual(['taps', 'melody']);
  });
});
