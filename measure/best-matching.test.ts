import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bestMatching } from './best-matching.ts';

function rightNotes(truth: readonly string[], labels: readonly (string | null)[], of: ReadonlyMap<string, string>) {
  return truth.filter((voice, index) => labels[index] !== null && of.get(voice) === labels[index]).length;
}

/** Every way to give each voice a label of its own or none. */
function allMatchings(voices: readonly string[], names: readonly string[]): readonly ReadonlyMap<string, string>[] {
  const [voice, ...others] = voices;
  if (voice === undefined) return [new Map()];
  return [undefined, ...names].flatMap((name) =>
    allMatchings(
      others,
      names.filter((each) => each !== name),
    ).map((rest) => (name === undefined ? rest : new Map([...rest, [voice, name]]))),
  );
}

describe('bestMatching', () => {
  it('gives each voice the label that the sum asks for, though another be its most frequent', () => {
    const truth = ['high', 'high', 'high', 'high', 'high', 'low', 'low', 'low'];
    const labels = ['a', 'a', 'a', 'b', 'b', 'a', 'a', 'a'];
    expect([...bestMatching(truth, labels)]).toEqual([
      ['high', 'b'],
      ['low', 'a'],
    ]);
  });

  it('leaves voices beyond the labels without one, and nothing stands for a note without a label', () => {
    expect([...bestMatching(['one', 'one', 'two'], ['a', 'a', 'a'])]).toEqual([['one', 'a']]);
    expect(bestMatching(['one', 'two'], [null, null]).size).toBe(0);
    expect(bestMatching([], []).size).toBe(0);
  });

  it('is as good as the best of all matchings', () => {
    const voice = fc.constantFrom('s', 'a', 't', 'b');
    const label = fc.constantFrom('1', '2', '3', '4', null);
    fc.assert(
      fc.property(fc.array(fc.tuple(voice, label), { maxLength: 30 }), (pairs) => {
        const [truth, labels] = [pairs.map(([each]) => each), pairs.map(([, each]) => each)];
        const names = [...new Set(labels)].filter((name) => name !== null);
        const best = Math.max(
          ...allMatchings([...new Set(truth)], names).map((each) => rightNotes(truth, labels, each)),
        );
        const matched = bestMatching(truth, labels);
        expect(rightNotes(truth, labels, matched)).toBe(best);
        expect(new Set(matched.values()).size).toBe(matched.size);
      }),
      { seed: 3, numRuns: 200 },
    );
  });
});
