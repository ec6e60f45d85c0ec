import { describe, expect, it } from 'vitest';
import { readPiece } from '../form/read-piece.ts';
import { demoPieces } from '../demo-pieces.ts';
import { blemishesOf, sungNotes } from './counterpoint.ts';

const heading = `title Test
composer Nobody
tuning E2 A2 D3 G3 B3 E4
key C major
meter 4/4
tempo 90
line M "Melody" melody madder stems up
line V "Middle" middle verdigris stems down
line B "Bass" bass indigo stems down
bar 1
`;

function kindsOf(rows: string): string[] {
  const reading = readPiece(heading + rows);
  if (!reading.ok) throw new Error(JSON.stringify(reading.refusal));
  return blemishesOf(reading.value).map(({ kind }) => kind);
}

// Voice leading: common practice, no source.
describe('voice leading', () => {
  it.each([
    ['a plain chord', 'chords | C | - | - | - |\nM | E4/1 | - | - | - |\nB | C3/5 | - | - | - |\n', []],
    [
      'an appoggiatura that steps down',
      'chords | C | - | - | - |\nM | F4/1 | E4/1 | - | - |\nB | C3/5 | - | - | - |\n',
      [],
    ],
    [
      'a strong note foreign to its chord',
      'chords | C | - | - | - |\nM | F4/1 | C5/1 | - | - |\nB | C3/5 | - | - | - |\n',
      ['unprepared-dissonance'],
    ],
    [
      'a bass that is not the chord’s',
      'chords | C | - | - | - |\nM | E4/1 | - | - | - |\nB | D3/4 | - | - | - |\n',
      ['bass-off-chord'],
    ],
    ['a semitone', 'chords | C | - | - | - |\nM | C4/2 | - | - | - |\nV | B3/3 | - | - | - |\n', ['semitone-clash']],
    [
      'octaves',
      'chords | C | - | F | - |\nM | C4/2 | - | F4/1 | - |\nB | C3/5 | - | F3/4 | - |\n',
      ['parallel-octaves'],
    ],
    ['fifths', 'chords | C | - | F | - |\nM | G4/1 | - | C5/1 | - |\nB | C3/5 | - | F3/4 | - |\n', ['parallel-fifths']],
    [
      'a middle voice above the melody',
      'chords | C | - | - | - |\nM | E4/2 | - | - | - |\nV | G4/1 | - | - | - |\n',
      ['crossing'],
    ],
  ])('%s', (_case, rows, kinds) => {
    expect(kindsOf(rows)).toEqual(kinds);
  });
});

describe.each(demoPieces().map(({ title, piece }) => [title, piece] as const))('%s', (_title, piece) => {
  const melody = sungNotes(piece, 'melody').map(({ midi }) => midi);
  const leaps = melody.slice(1).map((midi, index) => Math.abs(midi - melody[index]!));

  it('is led well', () => {
    expect(blemishesOf(piece)).toEqual([]);
  });

  it('has a melody for singing: about a tenth wide, three steps in four', () => {
    expect(Math.max(...melody) - Math.min(...melody)).toBeLessThanOrEqual(16);
    expect(leaps.filter((leap) => leap <= 2).length / leaps.length).toBeGreaterThanOrEqual(0.75);
  });

  it('closes on its tonic in melody and bass', () => {
    const tonic = piece.title === 'Two Candles' ? 9 : 2;
    expect([melody.at(-1)! % 12, sungNotes(piece, 'bass').at(-1)!.midi % 12]).toEqual([tonic, tonic]);
  });
});
