import { describe, expect, it } from 'vitest';
import type { Label, Piece } from './piece.ts';
import { teach, type Tool } from './teacher.ts';

/** A voice `high` and a voice `low`, a note of each at every moment. */
const twoVoices = (length: number): Piece => ({
  id: 'two',
  ticksPerQuarter: 1,
  meters: [],
  notes: Array.from({ length }, (_, onsetTicks) => [
    { onsetTicks, lengthTicks: 1, midi: 48, voice: 'low' },
    { onsetTicks, lengthTicks: 1, midi: 60, voice: 'high' },
  ]).flat(),
});

/** A tool that says the same whatever is pinned, and keeps the pins. */
function stubborn(first: readonly Label[]): Tool & { readonly asked: number[][] } {
  const asked: number[][] = [];
  return {
    asked,
    propose: (pins) => {
      asked.push([...pins.keys()]);
      return first.map((label, index) => pins.get(index) ?? label);
    },
    addLine: () => 'own',
  };
}

describe('teach', () => {
  it('has nothing to do where all is right', () => {
    expect(teach(twoVoices(2), stubborn(['B', 'A', 'B', 'A']))).toEqual({ id: 'two', byHand: 0, withTool: 0 });
  });

  it('marks a run of each voice where two voices change places half way, the lower first', () => {
    const tool = stubborn(['B', 'A', 'B', 'A', 'B', 'A', 'A', 'B', 'A', 'B']);
    expect(teach(twoVoices(5), tool)).toEqual({ id: 'two', byHand: 2, withTool: 2 });
    expect(tool.asked).toEqual([[], [6, 8], [6, 8, 7, 9]]);
  });

  it('ends a run at the next right note of the voice', () => {
    const tool = stubborn(['B', 'A', 'A', 'A', 'B', 'A', 'A', 'A', 'B', 'A']);
    expect(teach(twoVoices(5), tool)).toEqual({ id: 'two', byHand: 2, withTool: 2 });
    expect(tool.asked.at(-1)).toEqual([2, 6]);
  });

  it('needs fewer marks with a tool that learns from one', () => {
    const truth = ['B', 'A', 'B', 'A', 'B', 'A'];
    const tool: Tool = {
      propose: (pins) => (pins.size === 0 ? ['B', 'A', 'A', 'A', null, 'A'] : truth),
      addLine: () => 'own',
    };
    expect(teach({ ...twoVoices(3) }, tool)).toEqual({ id: 'two', byHand: 1, withTool: 1 });
  });

  it('goes back to what a new proposal has spoilt', () => {
    const tool: Tool = {
      propose: (pins) => {
        const spoilt = pins.has(2) && !pins.has(1) ? 'B' : 'A';
        return ['B', spoilt, pins.get(2) ?? 'A', 'A', 'B', 'A'];
      },
      addLine: () => 'own',
    };
    expect(teach(twoVoices(3), tool)).toEqual({ id: 'two', byHand: 1, withTool: 2 });
  });

  it('gives a voice that the tool found no line for a line of its own', () => {
    const tool = stubborn(['A', 'A', 'A', 'A', 'A', null]);
    expect(teach(twoVoices(3), tool)).toEqual({ id: 'two', byHand: 1, withTool: 1 });
    expect(tool.asked.at(-1)).toEqual([1, 3, 5]);
  });

  it('will not go on with a tool that overrides a pin', () => {
    const deaf: Tool = { propose: () => ['B', 'A', 'A', 'A', 'B', 'A'], addLine: () => 'own' };
    expect(() => teach(twoVoices(3), deaf)).toThrow('the tool moved note 2');
  });
});
