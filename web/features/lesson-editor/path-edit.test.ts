import { describe, expect, it } from 'vitest';
import { pathStep, type PathStep } from '../../../contract/index.ts';
import { lineNamed } from '../../../tests/support/split-builders.ts';
import { asKind, newPathStep, withLines, withLineToggled } from './path-edit.ts';

const order = ['melody', 'middle', 'bass'].map(lineNamed);
const [melody, middle, bass] = order.map(({ id }) => id) as [
  PathStep['lines'][number],
  PathStep['lines'][number],
  PathStep['lines'][number],
];
const everybody = newPathStep('p1', order);
const kinds = ['hear', 'echo', 'reveal', 'fade'] as const;

describe('editing a path step', () => {
  it('keeps every change of kind valid on the wire', () => {
    for (const from of kinds) {
      for (const to of kinds)
        expect(pathStep.safeParse(asKind(asKind(everybody, from), to)).success, `${from} to ${to}`).toBe(true);
    }
  });

  it('takes lines in and out in the split’s order', () => {
    const two = withLineToggled(everybody, middle, order);
    expect(two.lines).toEqual([melody, bass]);
    expect(withLineToggled(two, middle, order).lines).toEqual([melody, middle, bass]);
  });

  it('never leaves a step without a line', () => {
    const one = withLines(everybody, [bass]);
    expect(withLineToggled(one, bass, order)).toBe(one);
  });

  it('takes the one line of a step to reveal instead of its own', () => {
    const reveal = asKind(everybody, 'reveal');
    expect(withLineToggled(reveal, bass, order).lines).toEqual([bass]);
  });

  it('lets nobody be forward or fade who does not sound', () => {
    const forward: PathStep = { ...everybody, kind: 'hear', forward: bass, mix: [], lines: [melody, bass] };
    expect(withLineToggled(forward, bass, order)).toMatchObject({ forward: null });
    const fade = asKind(everybody, 'fade');
    expect(withLineToggled(fade, melody, order)).toMatchObject({ fading: middle });
  });
});
