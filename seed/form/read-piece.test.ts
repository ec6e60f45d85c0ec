import { describe, expect, it } from 'vitest';
import { ticksPerQuarter, type Piece } from './piece.ts';
import { readPiece } from './read-piece.ts';

const heading = `title    Test
composer Nobody
tuning   D2 A2 D3 G3 B3 E4
key      D major
meter    4/4
tempo    90
line M "Melody" melody madder stems up
line B "Bass" bass indigo stems down
line P "Taps" percussion walnut stems down
`;

function pieceOf(bars: string): Piece {
  const reading = readPiece(heading + bars);
  if (!reading.ok) throw new Error(JSON.stringify(reading.refusal));
  return reading.value;
}

function problemsOf(bars: string, head = heading): string[] {
  const reading = readPiece(head + bars);
  return reading.ok ? [] : reading.refusal.map(({ lineNumber, column, detail }) => `${lineNumber}:${column} ${detail}`);
}

const shown = (piece: Piece, letter: string): string[] =>
  piece.notes
    .filter((note) => note.letter === letter)
    .map((note) => {
      const name = note.sound.kind === 'tap' ? 'x' : String(note.sound.midi);
      return `${name} on ${note.string} fret ${note.fret} at ${note.onsetTicks / ticksPerQuarter} for ${note.lengthTicks / ticksPerQuarter}`;
    });

describe('a piece in our own text form', () => {
  it('divides each beat evenly among its tokens; - holds on, . rests', () => {
    const piece = pieceOf('bar 1\nM | F#4/1 | - A4/1 | - | . |\nB | D2/6 | - | . | A2/5 |\n');
    expect(shown(piece, 'M')).toEqual(['66 on 1 fret 2 at 0 for 1.5', '69 on 1 fret 5 at 1.5 for 1.5']);
    expect(shown(piece, 'B')).toEqual(['38 on 6 fret 0 at 0 for 2', '45 on 5 fret 0 at 3 for 1']);
  });

  it('holds a note on over the barline', () => {
    const piece = pieceOf('bar 1\nM | . | . | . | E4/1 |\nbar 2\nM | - | . | . | . |\n');
    expect(shown(piece, 'M')).toEqual(['64 on 1 fret 0 at 3 for 2']);
  });

  it('begins with a bar as long as its pickup', () => {
    const piece = pieceOf('bar 0 pickup\nM | D4/2 E4/1 |\nbar 1 mark=A\nM | F#4/1 | - | - | - |\n');
    expect(
      piece.bars.map(({ label, lengthTicks, isPickup }) => [label, lengthTicks / ticksPerQuarter, isPickup]),
    ).toEqual([
      ['0', 1, true],
      ['1', 4, false],
    ]);
    expect(shown(piece, 'M').at(-1)).toBe('66 on 1 fret 2 at 1 for 4');
  });

  it('reads taps, notes struck together, thirds of a beat and letting ring', () => {
    const piece = pieceOf('bar 1\nM | G4/1 F#4/1 E4/1 | D4/2+A3/3~ | . | . |\nP | . | x/4 | . | x/4 |\n');
    expect(shown(piece, 'M').map((text) => text.split(' at ')[1])).toEqual([
      '0 for 0.3333333333333333',
      '0.3333333333333333 for 0.3333333333333333',
      '0.6666666666666666 for 0.3333333333333333',
      '1 for 1',
      '1 for 1',
    ]);
    expect(piece.notes.filter((note) => note.ringsOn).map((note) => note.string)).toEqual([3]);
    expect(shown(piece, 'P')).toEqual(['x on 4 fret 0 at 1 for 1', 'x on 4 fret 0 at 3 for 1']);
  });

  it('reads a chord plan, levels and hairpins, which end at the next sign', () => {
    const piece = pieceOf(
      'bar 1\nlevel | p | < | - | - |\nchords | D | - | A7/C# | - |\nbar 2\nlevel | f | . | . | . |\n',
    );
    expect(piece.chords.map(({ name, onsetTicks }) => [name, onsetTicks / ticksPerQuarter])).toEqual([
      ['D', 0],
      ['A7/C#', 2],
    ]);
    expect(piece.dynamics).toEqual([
      { kind: 'level', onsetTicks: 0, level: 'p' },
      { kind: 'hairpin', onsetTicks: 24, endTicks: 96, direction: 'louder' },
      { kind: 'level', onsetTicks: 96, level: 'f' },
    ]);
  });

  it('counts frets from the capo', () => {
    const reading = readPiece(`${heading.replace('key ', 'capo 2\nkey ')}bar 1\nM | F#4/1 | . | . | . |\n`);
    expect(reading.ok && reading.value.notes[0]?.fret).toBe(0);
  });
});

describe('what is wrong is told with its line and column', () => {
  it.each([
    [
      'a pitch that the string does not have',
      'bar 1\nM | D4/1 | . | . | . |\n',
      '11:5 D4 cannot be played on string 1',
    ],
    [
      'a token of no kind',
      'bar 1\nM | . | . | H4/1 | . |\n',
      '11:13 "H4/1" is none of: a pitch with its string (F#4/2), x with its string (x/5), - and .',
    ],
    ['a hold with nothing to hold', 'bar 1\nM | . | - | . | . |\n', '11:9 there is no note for this - to hold on'],
    [
      'a hold after a bar without a row',
      'bar 1\nM | E4/1 | - | - | - |\nbar 2\nbar 3\nM | - | . | . | . |\n',
      '14:5 there is no note for this - to hold on',
    ],
    ['a bar of the wrong length', 'bar 1\nM | . | . | . |\n', '11:1 this row has 3 beats where its bar has 4'],
    [
      'a beat in five',
      'bar 1\nM | . . . . . | . | . | . |\n',
      '11:4 beat 1 holds 5 tokens; a beat is divided into 1 to 24 equal parts',
    ],
    ['a line nobody declared', 'bar 1\nX | . | . | . | . |\n', '11:1 no line has the letter "X"'],
    [
      'a tap in the melody',
      'bar 1\nM | x/4 | . | . | . |\n',
      '11:5 "x/4" does not belong on a line whose role is melody',
    ],
    ['a word that no bar knows', 'bar 1 loud\n', '10:7 "loud" says nothing about a bar'],
    ['a chord of no name', 'bar 1\nchords | H | - | - | - |\n', '11:10 "H" is no chord name'],
    ['a level of no name', 'bar 1\nlevel | loud | . | . | . |\n', '11:9 "loud" is no dynamic sign'],
    ['no bar at all', '', '1:1 a piece needs at least one bar'],
  ])('%s', (_case, bars, problem) => {
    expect(problemsOf(bars)).toEqual([problem]);
  });

  it('a heading that cannot be read, with what was expected', () => {
    expect(problemsOf('bar 1\n', heading.replace('4/4', 'four'))[0]).toBe('5:10 expected: meter 4/4');
    expect(problemsOf('bar 1\n', heading.replace('tempo ', 'speed '))[0]).toMatch(
      /^6:1 "speed" is no row of the heading/,
    );
  });
});
