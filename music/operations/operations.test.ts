import fc from 'fast-check';
import { fixedSeed } from '../../tests/support/property-seed.ts';
import { describe, expect, it } from 'vitest';
import { lineId, noteId, operationId } from '../basis/ids.ts';
import { lineNamed, splitOf } from '../../tests/support/split-builders.ts';
import { anyOperation, comparable, ids, startingSplit } from '../../tests/support/any-operation.ts';
import { judge } from './authority.ts';
import { isSameSubmission } from './canonical.ts';
import { changeLine, markNotes } from './make-operation.ts';
import { operationSchema, type Operation, type Submission } from './operation.ts';
import { applyOperation, invertOperation, operationKinds } from './registry.ts';
import { snapshotOf, splitFromSnapshot } from './snapshot.ts';
import { linesOfNote, type Split } from './split.ts';

function applied(split: Split, operation: Operation | null): Split {
  if (operation === null) throw new Error('nothing to apply');
  const next = applyOperation(split, operation, split.revision + 1);
  if (!next.ok) throw new Error(next.refusal.detail);
  return next.value;
}

const [first, second] = [noteId('n1'), noteId('n2')];

describe('operations', () => {
  it('[R1] a note is on the lines last written, as one whole set', () => {
    const split = splitOf({ melody: ['n1'], bass: [] });
    const marked = applied(split, markNotes(split, [first], [lineId('melody'), lineId('bass')]));
    expect(linesOfNote(marked, first)).toEqual(['bass', 'melody']);
    expect(linesOfNote(split, first)).toEqual(['melody']);
  });

  it('[R2] a mark for a retired line brings the line back, and its inverse puts it away again', () => {
    const split: Split = {
      ...splitOf({ melody: ['n1'] }),
      lines: [lineNamed('melody'), { ...lineNamed('bass'), isRetired: true }],
    };
    const mark = markNotes(split, [second], [lineId('bass')])!;
    const marked = applied(split, mark);
    expect(marked.lines.map(({ isRetired }) => isRetired)).toEqual([false, false]);
    expect(comparable(applied(marked, invertOperation(split, mark)))).toEqual(comparable(split));
  });

  it('[R3] an operation that names a line which never was is refused', () => {
    const split = splitOf({ melody: ['n1'] });
    const refusedMark = applyOperation(split, markNotes(split, [first], [lineId('gone')])!, 2);
    expect(refusedMark).toMatchObject({ ok: false, refusal: { code: 'operation-unknown-line' } });
  });

  it('[R4] a line is made once', () => {
    const split = splitOf({ melody: [] });
    const again = applyOperation(split, { kind: 'makeLine', line: lineNamed('melody') }, 2);
    expect(again).toMatchObject({ ok: false, refusal: { code: 'already-there' } });
  });

  it("[R5] a proposal passes over a person's mark and fills in the others", () => {
    const split = splitOf({ melody: ['n1'] });
    const from = 'proposal' as const;
    const after = { lines: [lineId('bass')], from, confidence: 0.5 };
    const changes = [first, second].map((note) => ({ note, before: { lines: [], from, confidence: null }, after }));
    const accepted = applied(split, { kind: 'acceptProposal', lines: [lineNamed('bass', 1)], changes });
    expect(linesOfNote(accepted, first)).toEqual(['melody']);
    expect(linesOfNote(accepted, second)).toEqual(['bass']);
  });

  it('[R6] two changes of different properties of one line are both kept', () => {
    const split = splitOf({ melody: [] });
    const face = lineNamed('melody');
    const renamed = changeLine(split, face.id, { ...face, name: 'Tune' });
    const redyed = changeLine(split, face.id, { ...face, dye: 'indigo' });
    expect(applied(applied(split, renamed), redyed).lines[0]).toMatchObject({ name: 'Tune', dye: 'indigo' });
  });

  it('[R7] an operation and then its inverse restores lines and marks', () => {
    fc.assert(
      fc.property(fc.array(anyOperation, { maxLength: 12 }), anyOperation, (history, operation) => {
        const split = history.reduce((present, step) => {
          const next = applyOperation(present, step, present.revision + 1);
          return next.ok ? next.value : present;
        }, startingSplit);
        const after = applyOperation(split, operation, split.revision + 1);
        if (!after.ok) return;
        expect(comparable(applied(after.value, invertOperation(split, operation)), split)).toEqual(comparable(split));
      }),
      { seed: fixedSeed },
    );
  });

  it('every kind has an entry of its own; one without does not compile', () => {
    const kinds = operationSchema.options.map((option) => option.shape.kind.value);
    expect(Object.keys(operationKinds).sort()).toEqual([...kinds].sort());
    const { reviveLine, ...others } = operationKinds;
    // @ts-expect-error -- reviveLine is missing
    const registry: typeof operationKinds = others;
    expect(registry.reviveLine).toBeUndefined();
    expect(reviveLine.schema.parse({ kind: 'reviveLine', line: 'bass' })).toEqual({ kind: 'reviveLine', line: 'bass' });
  });

  it('inverses are operations that may cross the wire', () => {
    fc.assert(
      fc.property(anyOperation, (operation) => {
        const inverse = invertOperation(startingSplit, operation);
        expect(operationSchema.parse(JSON.parse(JSON.stringify(inverse)))).toEqual(inverse);
      }),
      { seed: fixedSeed },
    );
  });

  it('a snapshot through JSON is the same split', () => {
    fc.assert(
      fc.property(fc.array(anyOperation, { maxLength: 12 }), (history) => {
        const split = history.reduce((present, step) => {
          const next = applyOperation(present, step, present.revision + 1);
          return next.ok ? next.value : present;
        }, startingSplit);
        const back = splitFromSnapshot(JSON.parse(JSON.stringify(snapshotOf(split))) as ReturnType<typeof snapshotOf>);
        expect(snapshotOf(back)).toEqual(snapshotOf(split));
      }),
      { seed: fixedSeed },
    );
  });

  it('marks read the same whether they lie above a base or in one map', () => {
    const notes = Array.from({ length: 900 }, (_unused, index) => noteId(`n${index % 500}`));
    let split = splitOf({ melody: [], bass: [] });
    const plain = new Map<string, readonly string[]>();
    for (const [index, note] of notes.entries()) {
      const lines = [lineId(index % 3 === 0 ? 'melody' : 'bass')];
      const mark = markNotes(split, [note], lines);
      plain.set(note, lines);
      if (mark !== null) split = applied(split, mark);
    }
    expect(split.marks.size).toBe(500);
    expect(new Map([...split.marks].map(([note, mark]) => [note, mark.lines]))).toEqual(plain);
    expect([...split.marks.keys()]).toHaveLength(500);
    expect([...split.marks.values()]).toHaveLength(500);
  });
});

describe('judging a submission', () => {
  const split = splitOf({ melody: ['n1'], bass: [] });
  const submission: Submission = {
    id: operationId('o1'),
    baseRevision: 0,
    operation: markNotes(split, [first], [lineId('bass')])!,
  };
  const hasNote = (note: string): boolean => ids.notes.includes(note);
  const ordered = { ...submission, revision: 1, by: 'ann', byName: 'Ann' };

  it('[R8] gives the next revision and names the newer marks that are overwritten', () => {
    const verdict = judge({ split, submission, first: null, hasNote });
    expect(verdict).toMatchObject({ kind: 'accepted', revision: 2, overwritten: ['n1'] });
    const aware = judge({ split, submission: { ...submission, baseRevision: 1 }, first: null, hasNote });
    expect(aware).toMatchObject({ kind: 'accepted', overwritten: [] });
  });

  it('[R9] the same id and body again is a duplicate, with another body refused', () => {
    expect(judge({ split, submission, first: ordered, hasNote })).toEqual({ kind: 'duplicate', first: ordered });
    const other = { ...submission, baseRevision: 1 };
    const verdict = judge({ split, submission: other, first: ordered, hasNote });
    expect(verdict).toMatchObject({ kind: 'refused', refusal: { code: 'operation-differs' } });
  });

  it('[R9] bodies are the same whatever the order of their keys', () => {
    const { operation, ...rest } = submission;
    const reordered = { operation: Object.fromEntries(Object.entries(operation).reverse()) as Operation, ...rest };
    expect(isSameSubmission(submission, reordered)).toBe(true);
  });

  it('[R3] a note that the score does not have is refused', () => {
    const operation = markNotes(split, [noteId('n99')], [lineId('bass')])!;
    const verdict = judge({ split, submission: { ...submission, operation }, first: null, hasNote });
    expect(verdict).toMatchObject({ kind: 'refused', refusal: { code: 'operation-unknown-note' } });
  });
});
