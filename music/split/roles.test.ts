import { describe, expect, it } from 'vitest';
import { freeFace } from './faces.ts';
import { characterOf, rolesOf } from './roles.ts';

const lineOf = (...midis: readonly number[]) =>
  characterOf(midis.map((midi, index) => ({ onsetTicks: index, lengthTicks: 1, midi })));

const melody = lineOf(72, 74, 76, 77, 76, 74, 72, 74);
const stepping = lineOf(65, 64, 62, 64, 65, 67, 65, 64);
const broken = lineOf(60, 64, 67, 64, 60, 64, 67, 64, 60, 64, 67, 64);
const held = lineOf(64, 65);
const low = lineOf(48, 43, 48, 43);

describe('rolesOf', () => {
  it.each([
    ['two', [melody, low], ['melody', 'bass']],
    ['a busy inner line', [melody, stepping, low], ['melody', 'counter', 'bass']],
    ['a broken chord between the outer lines', [melody, broken, low], ['melody', 'middle', 'bass']],
    [
      'a broken chord beside another inner line',
      [melody, held, broken, low],
      ['melody', 'middle', 'accompaniment', 'bass'],
    ],
    ['two inner lines', [melody, stepping, held, low], ['melody', 'counter', 'middle', 'bass']],
    ['one', [melody], ['melody']],
  ])('%s', (_, lines, roles) => {
    expect(rolesOf(lines).map(({ role }) => role)).toEqual(roles);
  });
});

describe('freeFace', () => {
  it('gives a second line of one role another name, letter and dye', () => {
    const first = freeFace('middle', []);
    const second = freeFace('middle', [first]);
    expect(first).toEqual({ name: 'Middle voice', role: 'middle', dye: 'verdigris', letter: 'V' });
    expect(second).toEqual({ name: 'Middle voice 2', role: 'middle', dye: 'madder', letter: 'W' });
  });
});
