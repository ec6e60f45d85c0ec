import { describe, expect, it } from 'vitest';
import { pathStep } from '../../../contract/index.ts';
import { lineNamed } from '../../../tests/support/split-builders.ts';
import { isMixed, mixOf, mixSummary, withLineMix, type MixedStep } from './mix-edit.ts';
import { asKind, newPathStep, withLineToggled } from './path-edit.ts';

const order = ['melody', 'middle', 'bass'].map(lineNamed);
type Id = MixedStep['lines'][number];
const [melody, middle, bass] = order.map(({ id }) => id) as [Id, Id, Id];

function everybody(): MixedStep {
  const step = newPathStep('p1', order);
  if (!isMixed(step)) throw new Error('a new step can be mixed');
  return step;
}

describe('the mix of a step', () => {
  it('keeps what is set, valid on the wire, and only of that line', () => {
    const step = withLineMix(withLineMix(everybody(), bass, { levelDb: -6 }), bass, { place: -0.5 });
    expect(pathStep.parse(step)).toEqual(step);
    expect(step.mix).toEqual([{ line: bass, levelDb: -6, place: -0.5, tone: 0 }]);
    expect(mixOf(step, melody)).toEqual({ levelDb: 0, place: 0, tone: 0, instrument: null });
  });

  it('names a line no more that is plain again', () => {
    const step = withLineMix(everybody(), bass, { levelDb: -6 });
    expect(withLineMix(step, bass, { levelDb: 0 }).mix).toEqual([]);
  });

  it('is told in the split’s order, and not at all where it is plain', () => {
    const step = withLineMix(withLineMix(everybody(), bass, { levelDb: -6, place: 1 }), melody, { levelDb: 2 });
    expect(mixSummary(everybody(), order)).toBeNull();
    expect(mixSummary(step, order)).toBe(`${order[0]?.name} +2 dB; ${order[2]?.name} −6 dB, far right`);
  });

  it('can be darker, and played with something else', () => {
    const step = withLineMix(everybody(), bass, { tone: -0.5, instrument: 'hum' });
    expect(pathStep.parse(step)).toEqual(step);
    expect(mixSummary(step, order)).toBe(`${order[2]?.name} darker, hummed`);
    expect(withLineMix(step, bass, { tone: 0, instrument: null }).mix).toEqual([]);
  });

  it('goes along to another kind that has one, and leaves with its line', () => {
    const step = withLineMix(withLineMix(everybody(), bass, { levelDb: -6 }), middle, { levelDb: -3 });
    expect(asKind(step, 'echo')).toMatchObject({ mix: step.mix });
    expect(asKind(asKind(step, 'fade'), 'hear')).toMatchObject({ mix: [] });
    expect(withLineToggled(step, bass, order)).toMatchObject({
      mix: [{ line: middle, levelDb: -3, place: 0, tone: 0 }],
    });
  });
});
