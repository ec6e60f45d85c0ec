import { describe, expect, it } from 'vitest';
import type { Score } from '../../score/score.ts';
import { readMusicXml } from '../musicxml/read-score.ts';
import { serialiseXml } from '../xml/serialise-xml.ts';
import { abcToMusicXml, type AbcOptions, type ReadAbc } from './abc-to-musicxml.ts';

interface Both extends ReadAbc {
  readonly score: Score;
  readonly xml: string;
}

/** Reads an ABC text all the way to a score. */
function read(text: string, options: AbcOptions = {}): Both {
  const abc = abcToMusicXml(text, options);
  const xml = serialiseXml({ doctype: null, before: [], root: abc.value, after: [] });
  const source = { fileName: 'made.abc', firstNoteNumber: 1, firstBarNumber: 1 };
  const result = readMusicXml(new TextEncoder().encode(xml), source);
  if (!result.ok) throw new Error(result.refusal.map(({ detail }) => detail).join(' '));
  return { ...abc, score: result.value.score, xml };
}

const tune = (body: string, header = 'M:4/4\nL:1/4\nK:C'): string => `X:1\nT:Made\n${header}\n${body}\n`;

/** `C4:1` is middle C for a quarter. */
const notes = ({ score }: Both): string[] =>
  score.notes.map(({ sound, lengthTicks }) => {
    const quarters = Math.round((lengthTicks / score.ticksPerQuarter) * 1e4) / 1e4;
    if (sound.kind === 'hit') return `${sound.hit}:${quarters}`;
    const { step, alter, octave } = sound.written;
    return `${step}${alter > 0 ? '#'.repeat(alter) : 'b'.repeat(-alter)}${octave}:${quarters}`;
  });
const pitches = (both: Both): string[] => notes(both).map((note) => note.replace(/:.*/, ''));
const details = ({ issues }: ReadAbc): string => issues.map(({ detail }) => detail).join('\n');

// The expectations are those of the ABC standard 2.1 (abcnotation.com/wiki/abc:standard:v2.1), from memory.
describe('reading ABC', () => {
  it('reads pitch, octaves and lengths', () => {
    const both = read(tune("C, C c c' | D/ D2 E3/2 | F// G/4 A// B//z3 |"));
    expect(pitches(both)).toEqual(['C3', 'C4', 'C5', 'C6', 'D4', 'D4', 'E4', 'F4', 'G4', 'A4', 'B4']);
    expect(notes(both).slice(4, 8)).toEqual(['D4:0.5', 'D4:2', 'E4:1.5', 'F4:0.25']);
    expect(both.score.title).toBe('Made');
  });

  it('takes the note length from L:, else from the meter: sixteenths below three quarters', () => {
    const length = (header: string): string => notes(read(`X:1\n${header}\nK:C\nC|\n`))[0] ?? '';
    expect(length('M:2/4')).toBe('C4:0.25');
    expect(length('M:3/4')).toBe('C4:0.5');
    expect(length('M:C')).toBe('C4:0.5');
    expect(length('M:6/8\nL:1/16')).toBe('C4:0.25');
    expect(length('L:1/4')).toBe('C4:1');
  });

  it('keeps accidentals to the end of the bar, with the key’s signature around', () => {
    const both = read(tune('F ^C C =F | C F _B B |', 'M:4/4\nL:1/4\nK:D'));
    expect(pitches(both)).toEqual(['F#4', 'C#4', 'C#4', 'F4', 'C#4', 'F#4', 'Bb4', 'Bb4']);
    expect(pitches(read(tune('^^C __D =E c | C')))).toEqual(['C##4', 'Dbb4', 'E4', 'C##5', 'C4']);
    expect(pitches(read(tune('^C c |', '%%propagate-accidentals octave\nM:4/4\nL:1/4\nK:C')))).toEqual(['C#4', 'C5']);
  });

  it('knows keys and modes', () => {
    const fifths = (key: string): number | undefined => read(tune('C4|', `L:1/4\nK:${key}`)).score.bars[0]?.key.fifths;
    const table: readonly (readonly [string, number])[] = [
      ['C', 0],
      ['G', 1],
      ['Bb', -2],
      ['F#', 6],
      ['Cb', -7],
      ['C#', 7],
      ['Am', 0],
      ['Emin', 1],
      ['C minor', -3],
      ['F#m', 3],
      ['Ddor', 0],
      ['EPhr', 0],
      ['F Lydian', 0],
      ['Gmix', 0],
      ['Aaeo', 0],
      ['Bloc', 0],
      ['C ionian', 0],
      ['Amix', 2],
      ['Edor', 2],
      ['HP', 0],
      ['Hp', 2],
      ['none', 0],
    ];
    expect(table.map(([key]) => [key, fifths(key)])).toEqual(table.map(([key, expected]) => [key, expected]));
    expect(pitches(read(tune('F C B |', 'L:1/4\nK:D Phr ^f')))).toEqual(['F#4', 'C4', 'Bb4']);
    expect(pitches(read(tune('F C B |', 'L:1/4\nK:C exp _B ^f')))).toEqual(['F#4', 'C4', 'Bb4']);
  });

  it('reads broken rhythm in both directions and deep', () => {
    expect(notes(read(tune('A>B A<B | A>>B c<<<d |')))).toEqual([
      'A4:1.5',
      'B4:0.5',
      'A4:0.5',
      'B4:1.5',
      'A4:1.75',
      'B4:0.25',
      'C5:0.125',
      'D5:1.875',
    ]);
  });

  it('reads tuplets with one, two and three numbers', () => {
    expect(notes(read(tune('(3ABc d2 | (5:4:5ABcde (3:2:2A2B z2|', 'M:4/4\nL:1/4\nK:C')))).toEqual([
      'A4:0.6667',
      'B4:0.6667',
      'C5:0.6667',
      'D5:2',
      'A4:0.8',
      'B4:0.8',
      'C5:0.8',
      'D5:0.8',
      'E5:0.8',
      'A4:1.3333',
      'B4:0.6667',
    ]);
    expect(notes(read(tune('(2AB (4ABcd|', 'M:6/8\nL:1/8\nK:C')))).toEqual([
      'A4:0.75',
      'B4:0.75',
      'A4:0.375',
      'B4:0.375',
      'C5:0.375',
      'D5:0.375',
    ]);
    expect(read(tune('(3ABc d2|')).score.tuplets).toMatchObject([{ actual: 3, normal: 2 }]);
  });

  it('reads chords, ties within and after them, and slurs', () => {
    const both = read(tune('[CEG]2 [C2E2]- | [CE]2 (A B) | c- | c4 |'));
    expect(notes(both)).toEqual(['G4:2', 'E4:2', 'C4:2', 'E4:4', 'C4:4', 'A4:1', 'B4:1', 'C5:5']);
    expect(both.score.slurs).toHaveLength(1);
    expect(notes(read(tune('^c4-|c4|')))).toEqual(['C#5:8']);
  });

  it('reads repeats, endings of several kinds and sections', () => {
    const both = read(tune('|: C4 |1,3 D4 :|2 E4 |] F4 || G4 ::A4 :|'));
    expect(
      both.score.bars.map(({ startsRepeat, repeatTimes, endings }) => [startsRepeat, repeatTimes, endings]),
    ).toEqual([
      [true, 0, []],
      [false, 2, [1, 3]],
      [false, 0, [2]],
      [false, 0, []],
      [false, 2, []],
      [true, 2, []],
    ]);
    expect(read(tune('C4 |[1-3 D4 :|[4 E4 |]')).score.bars[1]?.endings).toEqual([1, 2, 3]);
    expect(read(tune('|:: C4 ::|')).score.bars[0]?.repeatTimes).toBe(3);
    expect(read(tune('P:A\nC4|\nP:B\nD4|')).score.bars.map(({ rehearsalMark }) => rehearsalMark)).toEqual(['A', 'B']);
  });

  it('reads pickups, rests of several bars and changes within the tune', () => {
    const both = read(tune('G | C4 | Z2 | [M:3/4] [K:F] B3 | [L:1/8] B6 |'));
    expect(both.score.bars.map(({ label, isImplicit }) => `${label}${isImplicit ? 'i' : ''}`)).toEqual([
      '0i',
      '1',
      '2',
      '3',
      '4',
      '5',
    ]);
    expect(both.score.bars.map(({ lengthTicks }) => lengthTicks / both.score.ticksPerQuarter)).toEqual([
      1, 4, 4, 4, 3, 3,
    ]);
    expect(notes(both)).toEqual(['G4:1', 'C4:4', 'Bb4:3', 'Bb4:3']);
    expect(both.score.bars.map(({ key }) => key.fifths)).toEqual([0, 0, 0, 0, -1, -1]);
  });

  it('reads several voices and overlays', () => {
    const both = read(
      'X:1\nT:Two\nM:4/4\nL:1/4\nV:1 name="Upper"\nV:2 name="Lower" clef=bass\nK:G\nV:1\nB4 | c4 |\nV:2\nG,4 | [V:1] d4 |\n[V:2] F,4 & A,2 z2 |\n',
    );
    expect(both.score.parts.map(({ name }) => name)).toEqual(['Upper', 'Lower']);
    expect(both.score.bars).toHaveLength(3);
    const upper = both.score.notes.filter(({ voices }) => voices.some(({ part }) => part === both.score.parts[0]?.id));
    expect(upper).toHaveLength(3);
    expect(new Set(both.score.notes.map(({ voices: [voice] }) => voice?.voice))).toEqual(new Set(['1', '2']));
    expect(details(both)).toContain('Voice “2” has 2 of 3 bars');
  });

  it('sounds an octave from where a clef with an 8 is written, and moves by octave=', () => {
    expect(pitches(read(tune('C4|', 'L:1/4\nK:C clef=treble-8')))).toEqual(['C3']);
    expect(pitches(read(tune('C4|', 'L:1/4\nK:C octave=-1')))).toEqual(['C3']);
    expect(read(tune('C,4|', 'L:1/4\nK:C bass')).xml).toContain('<sign>F</sign>');
  });

  it('sets words under notes: hyphens, held syllables, skips and bars', () => {
    const both = read(tune('C D E F | G A B c |\nw: A-ma-zing~grace * | sweet_ the sound'));
    expect(both.score.lyrics.map(({ text, syllabic, isExtended }) => [text, syllabic, isExtended])).toEqual([
      ['A', 'begin', false],
      ['ma', 'middle', false],
      ['zing grace', 'end', false],
      ['sweet', 'single', true],
      ['the', 'single', false],
      ['sound', 'single', false],
    ]);
    const second = read(tune('C D |\nw: one two\nw: three four\nE F |\nw: five six'));
    expect(second.score.lyrics.map(({ text, verse }) => `${verse}${text}`).sort()).toEqual([
      '1five',
      '1one',
      '1six',
      '1two',
      '2four',
      '2three',
    ]);
  });

  it('reads chord symbols, words, grace notes and decorations', () => {
    const both = read(tune('"Am7"!mf!.A "^dolce"!fermata!B {/d}c !trill!d | "D/F#"TA vB {gab}c !D.C.!d |'));
    expect(both.score.chordSymbols.map(({ text }) => text)).toEqual(['Am7', 'D/F♯']);
    expect(both.score.words.map(({ text }) => text)).toContain('dolce');
    expect(both.score.graces).toHaveLength(4);
    expect(both.score.dynamics).toEqual([{ kind: 'level', onsetTicks: 0, level: 'mf' }]);
    expect(both.score.notes[0]?.techniques).toContain('staccato');
    expect(both.score.notes[1]?.techniques).toContain('fermata');
    expect(both.score.bars[1]?.jumps).toEqual(['daCapo']);
  });

  // ABC 2.1, decorations, from memory: T, M and P stand for trill, lowermordent and uppermordent.
  it.each([
    ['T !trill!', 'trill'],
    ['M !mordent! !lowermordent!', 'mordent'],
    ['P !uppermordent! !pralltriller!', 'invertedMordent'],
    ['!turn!', 'turn'],
    ['!invertedturn!', 'invertedTurn'],
  ])('reads the ornaments %s', (signs, kind) => {
    const names = signs.split(' ');
    const { score } = read(tune(names.map((name) => `${name}c2`).join(' ')));
    expect(score.notes.map(({ ornaments }) => ornaments)).toEqual(names.map(() => [{ kind }]));
  });

  it('reads tempos of every form', () => {
    const tempo = (field: string): number | undefined =>
      read(tune('C4|', `M:4/4\nL:1/8\nQ:${field}\nK:C`)).score.tempos[0]?.quartersPerMinute;
    expect(tempo('1/4=96')).toBe(96);
    expect(tempo('3/8=60')).toBe(90);
    expect(tempo('"Allegro" 1/2=60 "con brio"')).toBe(120);
    expect(tempo('120')).toBe(60);
    expect(tempo('1/4 1/8=40')).toBe(60);
  });

  it('gives back all tunes and reads the one that is asked for', () => {
    const book = 'M:3/4\nL:1/4\n\nX:4\nT:First\nK:C\nC3|\n\nSome prose: not music.\n\nX:9\nT:Second\nK:G\nF3|\n';
    expect(read(book).tunes).toEqual([
      { number: 4, title: 'First' },
      { number: 9, title: 'Second' },
    ]);
    expect(pitches(read(book, { tune: 9 }))).toEqual(['F#4']);
    expect(pitches(read(book, { tune: 1 }))).toEqual(['C4']);
    expect(read(book).score.bars[0]?.meter.beats).toEqual([3]);
    expect(abcToMusicXml(book, { tune: 77 }).issues[0]?.code).toBe('no-music');
  });

  it('tells what it does not understand with line and column, and goes on', () => {
    const both = read(tune('C #D !nonsense!E F |\n%%staves {1 2}\nG4 ]|'));
    expect(pitches(both)).toEqual(['C4', 'D4', 'E4', 'F4', 'G4']);
    const unknown = both.issues.find(({ detail }) => detail.includes('“#”'));
    expect(unknown?.where).toEqual({ kind: 'text', lineNumber: 6, column: 3 });
    expect(details(both)).toContain('“nonsense”');
    expect(details(both)).toContain('staves');
  });

  it('keeps comments, continued lines, windows line ends and a byte order mark out of the music', () => {
    const both = read('\uFEFFX:1\r\nL:1/4 % quarters\r\nM:4/4\r\nK:C\r\nC D \\\r\nE F | % the end\r\nw: a b c d\r\n');
    expect(pitches(both)).toEqual(['C4', 'D4', 'E4', 'F4']);
    expect(both.score.lyrics.map(({ text }) => text)).toEqual(['a', 'b', 'c', 'd']);
  });

  it('refuses what is no ABC', () => {
    expect(abcToMusicXml('hello').issues).toMatchObject([{ code: 'file-unsupported', severity: 'error' }]);
    expect(abcToMusicXml('X:1\nK:C\n').issues).toMatchObject([{ code: 'no-music', severity: 'error' }]);
  });
});
