import { ok } from '../../basis/result.ts';
import { lineOf, unknownLine, type OperationKind, type Subject } from '../effect.ts';
import { changeLineSchema, reorderLineSchema, type OperationOf } from '../operation.ts';
import type { LineFace } from '../split.ts';

type ChangeLine = OperationOf<'changeLine'>;

const faceKeys = ['name', 'role', 'dye', 'letter'] as const satisfies readonly (keyof LineFace)[];

const changedKeys = ({ before, after }: ChangeLine): readonly (keyof LineFace)[] =>
  faceKeys.filter((key) => before[key] !== after[key]);

/** The base face with the named properties taken from another. */
const faceWith = (base: LineFace, source: LineFace, keys: readonly (keyof LineFace)[]): LineFace => ({
  name: (keys.includes('name') ? source : base).name,
  role: (keys.includes('role') ? source : base).role,
  dye: (keys.includes('dye') ? source : base).dye,
  letter: (keys.includes('letter') ? source : base).letter,
});

/** A line's face changed; properties that the operation does not change keep what others made of them meanwhile. */
export const changeLineKind: OperationKind<ChangeLine> = {
  schema: changeLineSchema,
  effect: (split, operation) => {
    const line = lineOf(split, operation.line);
    if (line === undefined) return unknownLine(operation.line);
    return ok({ lines: [{ ...line, ...faceWith(line, operation.after, changedKeys(operation)) }], marks: [] });
  },
  invert: (split, operation) => {
    const present = lineOf(split, operation.line) ?? operation.before;
    const result = faceWith(present, operation.after, changedKeys(operation));
    return { ...operation, before: result, after: faceWith(present, present, []) };
  },
  subjects: (_split, operation) => changedKeys(operation).map((key): Subject => `face:${operation.line}:${key}`),
  narrow: (operation, owns) => {
    const keys = changedKeys(operation).filter((key) => owns(`face:${operation.line}:${key}`));
    const after = faceWith(operation.before, operation.after, keys);
    return keys.length === 0 ? null : { ...operation, after };
  },
};

/** A line moved in the list of lines. */
export const reorderLineKind: OperationKind<OperationOf<'reorderLine'>> = {
  schema: reorderLineSchema,
  effect: (split, operation) => {
    const line = lineOf(split, operation.line);
    if (line === undefined) return unknownLine(operation.line);
    return ok({ lines: [{ ...line, orderKey: operation.after }], marks: [] });
  },
  invert: (split, operation) => ({
    ...operation,
    before: operation.after,
    after: lineOf(split, operation.line)?.orderKey ?? operation.before,
  }),
  subjects: (_split, { line }) => [`order:${line}`],
  narrow: (operation, owns) => (owns(`order:${operation.line}`) ? operation : null),
};
