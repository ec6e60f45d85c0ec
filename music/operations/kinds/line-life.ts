import { ok, refused, type Result } from '../../basis/result.ts';
import type { LineId } from '../../basis/ids.ts';
import { lineOf, unknownLine, type OperationKind, type OperationRefusal, type SplitEffect } from '../effect.ts';
import { makeLineSchema, retireLineSchema, reviveLineSchema, type Operation, type OperationOf } from '../operation.ts';
import type { Split } from '../split.ts';

function withLife(split: Split, id: LineId, isRetired: boolean): Result<SplitEffect, OperationRefusal> {
  const line = lineOf(split, id);
  return line === undefined ? unknownLine(id) : ok({ lines: [{ ...line, isRetired }], marks: [] });
}

const lifeAsIn = (split: Split, line: LineId): Operation => ({
  kind: lineOf(split, line)?.isRetired === false ? 'reviveLine' : 'retireLine',
  line,
});

/** A line made. Lines are never unmade: the inverse retires it. */
export const makeLineKind: OperationKind<OperationOf<'makeLine'>> = {
  schema: makeLineSchema,
  effect: (split, { line }) =>
    lineOf(split, line.id) === undefined
      ? ok({ lines: [line], marks: [] })
      : refused({ code: 'already-there', detail: `The split already has a line ${line.id}.` }),
  invert: (_split, { line }) => ({ kind: 'retireLine', line: line.id }),
  subjects: (_split, { line }) => [`life:${line.id}`],
  narrow: (operation, owns) => (owns(`life:${operation.line.id}`) ? operation : null),
};

/** A line put away, its marks kept. */
export const retireLineKind: OperationKind<OperationOf<'retireLine'>> = {
  schema: retireLineSchema,
  effect: (split, { line }) => withLife(split, line, true),
  invert: (split, { line }) => lifeAsIn(split, line),
  subjects: (_split, { line }) => [`life:${line}`],
  narrow: (operation, owns) => (owns(`life:${operation.line}`) ? operation : null),
};

/** A line brought back with the marks that it had. */
export const reviveLineKind: OperationKind<OperationOf<'reviveLine'>> = {
  schema: reviveLineSchema,
  effect: (split, { line }) => withLife(split, line, false),
  invert: (split, { line }) => lifeAsIn(split, line),
  subjects: (_split, { line }) => [`life:${line}`],
  narrow: (operation, owns) => (owns(`life:${operation.line}`) ? operation : null),
};
