import { describe, expect, it } from 'vitest';
import { readPiece } from '../form/read-piece.ts';
import { demoPieces } from '../demo-pieces.ts';
import { hindrancesOf } from './playability.ts';

const heading = `title Test
composer Nobody
tuning D2 A2 D3 G3 B3 E4
key D major
meter 4/4
tempo 90
line M "Melody" melody madder stems up
line V "Middle" middle verdigris stems down
line B "Bass" bass indigo stems down
line P "Taps" percussion walnut stems down
bar 1
`;

function kindsOf(rows: string): string[] {
  const reading = readPiece(heading + rows);
  if (!reading.ok) throw new Error(JSON.stringify(reading.refusal));
  return hindrancesOf(reading.value).map(({ kind }) => kind);
}

// What two hands can do: common practice, no source.
describe('two hands', () => {
  it.each([
    ['a chord in one position', 'M | F#4/1 | - | - | - |\nV | D4/2+A3/3 | - | - | - |\nB | D2/6 | - | - | - |\n', []],
    ['six frets under one hand', 'M | B4/1 | - | - | - |\nB | E2/6 | - | - | - |\n', ['span']],
    ['open strings are free', 'M | A4/1 | - | - | - |\nB | D2/6 | - | - | - |\n', []],
    ['a string that still sounds', 'M | D4/2 | - | - | - |\nV | . | C#4/2 | . | . |\n', ['string-taken']],
    [
      'five fingers',
      'M | G4/1 | - | - | - |\nV | C#4/2+Bb3/3+F3/4 | - | - | - |\nB | C3/5 | - | - | - |\n',
      ['fingers', 'pluck'],
    ],
    ['one finger laid across', 'M | G4/1 | - | - | - |\nV | D4/2+Bb3/3 | - | - | - |\nB | C3/5 | - | - | - |\n', []],
    ['a bass above the thumb', 'B | G3/3 | - | - | - |\n', ['thumb']],
    ['a tap on a ringing string', 'B | D3/4 | - | - | - |\nP | . | x/4 | . | . |\n', ['tap-on-ringing-string']],
    [
      'a hand that jumps while it holds',
      'M | F#4/1 | - | - | - |\nV | . . . D4/2 | - | - | - |\nB | B2/5 | - | - | - |\n',
      [],
    ],
    ['from the first frets to the tenth in a sixteenth', 'M | F4/1 F4/1 F4/1 D5/1 | . | . | . |\n', ['shift']],
  ])('%s', (_case, rows, kinds) => {
    expect(kindsOf(rows)).toEqual(kinds);
  });

  it.each(demoPieces().map(({ title, piece }) => [title, piece] as const))('can play %s', (_title, piece) => {
    expect(hindrancesOf(piece)).toEqual([]);
  });
});
