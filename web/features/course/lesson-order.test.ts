import { describe, expect, it } from 'vitest';
import { moved } from './lesson-order.ts';

describe('moving in a list', () => {
  it.each([
    [0, 1, ['b', 'a', 'c']],
    [2, -1, ['a', 'c', 'b']],
    [0, -1, ['a', 'b', 'c']],
    [2, 1, ['a', 'b', 'c']],
    [0, 9, ['b', 'c', 'a']],
    [7, 1, ['a', 'b', 'c']],
  ])('moves the item at %i by %i', (index, by, result) => expect(moved(['a', 'b', 'c'], index, by)).toEqual(result));
});
