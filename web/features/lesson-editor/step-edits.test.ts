import { describe, expect, it } from 'vitest';
import { addStep, moveStep, removeStep, replaceStep } from './step-edits.ts';

const text = { title: 'T', steps: ['a', 'b', 'c'].map((id) => ({ kind: 'text' as const, id, text: id })) };
const ids = (edited: typeof text | ReturnType<ReturnType<typeof addStep>>) => edited.steps.map(({ id }) => id).join('');

describe('edits of steps', () => {
  it('move within the lesson', () => {
    expect(
      [moveStep('a', 1), moveStep('c', -1), moveStep('a', -1), moveStep('c', 1), moveStep('x', 1)].map((change) =>
        ids(change(text)),
      ),
    ).toEqual(['bac', 'acb', 'abc', 'abc', 'abc']);
  });

  it('add, replace and remove, and leave the rest', () => {
    const added = addStep({ kind: 'text', id: 'd', text: 'd' })(text);
    expect(ids(added)).toBe('abcd');
    expect(replaceStep({ kind: 'text', id: 'b', text: 'new' })(added).steps[1]).toEqual({
      kind: 'text',
      id: 'b',
      text: 'new',
    });
    expect(ids(removeStep('b')(added))).toBe('acd');
  });
});
