import { expect, it } from 'vitest';
import type { NamedMix } from '../../contract/index.ts';
import { withMix, withName, withoutMix } from './mix-shelf.ts';

const mix = (id: string, name: string): NamedMix => ({ id, name, lines: [], forward: null });
const two = [mix('a', 'Everybody'), mix('b', 'Bass alone')];

it('keeps a mix under a new name, and in place of the one that has its name', () => {
  expect(withMix(two, mix('c', 'Taps')).map(({ id }) => id)).toEqual(['a', 'b', 'c']);
  expect(withMix(two, mix('c', 'everybody')).map(({ id, name }) => [id, name])).toEqual([
    ['a', 'everybody'],
    ['b', 'Bass alone'],
  ]);
});

it('renames, but never to a name that another has', () => {
  expect(withName(two, 'a', ' All ').map(({ name }) => name)).toEqual(['All', 'Bass alone']);
  expect(withName(two, 'a', 'bass ALONE')).toEqual(two);
  expect(withName(two, 'a', 'everybody').map(({ name }) => name)).toEqual(['everybody', 'Bass alone']);
});

it('forgets one and no other', () => {
  expect(withoutMix(two, 'a')).toEqual([two[1]]);
});
