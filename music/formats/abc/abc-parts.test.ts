import { describe, expect, it } from 'vitest';
import type { Score } from '../../score/score.ts';
import { readMusicXml } from '../musicxml/read-score.ts';
import { serialiseXml } from '../xml/serialise-xml.ts';
import { abcToMusicXml } from './abc-to-musicxml.ts';
import { partOrderOf } from './abc-part-order.ts';

interface Read {
  readonly score: Score;
  readonly told: readonly string[];
}

function read(text: string): Read {
  const abc = abcToMusicXml(text);
  const xml = serialiseXml({ doctype: null, before: [], root: abc.value, after: [] });
  const result = readMusicXml(new TextEncoder().encode(xml), {
    fileName: 'made.abc',
    firstNoteNumber: 1,
    firstBarNumber: 1,
  });
  if (!result.ok) throw new Error(result.refusal.map(({ detail }) => detail).join(' '));
  return { score: result.value.score, told: abc.issues.map(({ detail }) => detail) };
}

const tune = (header: string, body: string): string => `X:1\nT:Made\n${header}M:4/4\nL:1/4\nK:C\n${body}\n`;
const pitches = ({ notes }: Score): string =>
  notes.map(({ sound }) => (sound.kind === 'hit' ? 'x' : `${sound.written.step}${sound.written.octave}`)).join(' ');
/** The first pitch of each bar, its repeat signs around it. */
const bars = ({ bars: all, notes }: Score): string =>
  all
    .map(({ id, startsRepeat, repeatTimes }) => {
      const first = notes.find(({ bar }) => bar === id)?.sound;
      const letter = first?.kind === 'pitched' ? first.written.step : '-';
      return `${startsRepeat ? '|:' : ''}${letter}${repeatTimes > 0 ? `:${repeatTimes}` : ''}`;
    })
    .join(' ');

const order = (text: string): string => {
  const found = partOrderOf(text);
  return found.kind === 'order' ? found.parts.join('') : found.kind;
};

// ABC 2.1, "P: - parts": “P: can be used in the header to state the order in which the tune parts are played, i.e. P:ABABCDCD … To make things easier to read a dot may be used: P:((AB)3.(CD)3)2”, from memory.
describe('the order of parts in ABC', () => {
  it.each([
    ['ABABCDCD', 'ABABCDCD'],
    ['A3', 'AAA'],
    ['A2B2', 'AABB'],
    ['(AB)3(CD)3', 'ABABABCDCDCD'],
    ['((AB)3(CD)3)2', 'ABABABCDCDCDABABABCDCDCD'],
    ['((AB)3.(CD)3)2', 'ABABABCDCDCDABABABCDCDCD'],
    ['A (B C)2', 'ABCBC'],
    ['A)B', 'unreadable'],
    ['(AB', 'unreadable'],
    ['A0', 'unreadable'],
    ['2A', 'unreadable'],
    ['Ab', 'unreadable'],
    ['(((((A99)99)99)99)99)', 'endless'],
  ])('reads %s as %s', (text, expected) => expect(order(text)).toBe(expected));

  const parts = 'P:A\nC4|\nP:B\nD4|\n';

  it('writes out what returns, and folds what follows itself into a repeat', () => {
    expect(bars(read(tune('P:ABAB\n', parts)).score)).toBe('C D C D');
    expect(bars(read(tune('P:A2B3\n', parts)).score)).toBe('|:C:2 |:D:3');
    expect(bars(read(tune('P:AB\n', parts)).score)).toBe('C D');
    expect(read(tune('P:AB\n', parts)).told).toEqual([]);
    expect(read(tune('P:ABA\n', parts)).told).toEqual(['The parts were put in the order ABA: 3 bars written.']);
    expect(read(tune('P:ABA\n', parts)).score.bars.map(({ rehearsalMark }) => rehearsalMark)).toEqual(['A', 'B', 'A']);
  });

  it('keeps a part’s own repeats within the part', () => {
    expect(bars(read(tune('P:ABA\n', 'P:A\nC4:|\nP:B\nD4|\n')).score)).toBe('|:C:2 D |:C:2');
    expect(bars(read(tune('P:A2B\n', 'P:A\nC4:|\nP:B\nD4|\n')).score)).toBe('|:C:2 |:C:2 D');
  });

  it('returns to the key and the meter of a part', () => {
    const { score } = read(tune('P:ABA\n', 'P:A\nF4|\nP:B\n[K:D][M:3/4]F3|\n'));
    expect(score.bars.map(({ key, meter }) => [key.fifths, meter.beats])).toEqual([
      [0, [4]],
      [2, [3]],
      [0, [4]],
    ]);
    expect(score.notes.map(({ sound }) => (sound.kind === 'pitched' ? sound.written.alter : null))).toEqual([0, 1, 0]);
  });

  it('cuts ties and slurs that would reach into another part, and keeps the others', () => {
    const { score } = read(tune('P:ABA\n', 'P:A\n(C2 D2-)|\nP:B\nD4|\n'));
    expect(pitches(score)).toBe('C4 D4 C4 D4');
    expect(score.notes.map(({ lengthTicks }) => lengthTicks / score.ticksPerQuarter)).toEqual([2, 6, 2, 2]);
    expect(score.slurs).toHaveLength(2);
  });

  it('orders all voices alike, with rests where one of them has nothing', () => {
    const { score } = read(`X:1\nP:ABA\nM:4/4\nL:1/4\nV:1\nV:2\nK:C\nV:1\nP:A\nC4|\nP:B\nD4|\nV:2\nE4|\n`);
    expect(score.bars).toHaveLength(3);
    expect(score.notes.map(({ bar }) => score.bars.findIndex(({ id }) => id === bar))).toEqual([0, 0, 1, 2, 2]);
  });

  it('tells what it cannot follow', () => {
    expect(read(tune('P:AXA\n', parts)).told.join(' ')).toContain('names X, which the tune does not have');
    expect(read(tune('P:AA\n', parts)).told.join(' ')).toContain('does not name B');
    const broken = read(tune('P:A)B\n', parts));
    expect([bars(broken.score), broken.told.join(' ')]).toEqual(['C D', expect.stringContaining('not understood')]);
  });
});

// ABC 2.1, "Symbol lines": “the line starts with s: … symbols are aligned to notes; * means skip one note, | advances to the next bar”, from memory.
describe('symbol lines in ABC', () => {
  it('sets chord symbols, words and decorations at notes, after the music', () => {
    const { score, told } = read(tune('', 'C D E z | F G A B |\ns: "Am" * !f! | "^slow" !>! * "G7"\ns: * !fermata!'));
    const quarters = (ticks: number): number => ticks / score.ticksPerQuarter;
    expect(score.chordSymbols.map(({ onsetTicks, text }) => [quarters(onsetTicks), text])).toEqual([
      [0, 'Am'],
      [7, 'G7'],
    ]);
    expect(score.dynamics).toMatchObject([{ kind: 'level', onsetTicks: 2 * score.ticksPerQuarter, level: 'f' }]);
    expect(score.words.map(({ onsetTicks, text }) => [quarters(onsetTicks), text])).toEqual([[4, 'slow']]);
    expect(score.notes.map(({ techniques }) => techniques[0] ?? '-')).toEqual([
      '-',
      'fermata',
      '-',
      '-',
      'accent',
      '-',
      '-',
    ]);
    expect(told).toEqual([]);
  });

  it('tells symbols without a note and what it does not understand', () => {
    expect(read(tune('', 'C4|\ns: !f! !p! huh')).told).toEqual([
      'Symbols without a note were left out: 1.',
      'Not understood in a line of symbols and left out: huh',
    ]);
  });
});

// ABC 2.1, "Macros": static “m: ~G3 = G{A}G{F}G”, transposing “m: ~n3 = n{o}n{m}n … n is the note, the letters h to z are relative to it”, from memory.
describe('macros and letters of one’s own in ABC', () => {
  it('replaces a static macro wherever its letters stand, but not within words', () => {
    const { score } = read(tune('m: ~G3 = G{A}G{F}G\n', '~G3 "~G3"C |'));
    expect([pitches(score), score.graces.length]).toEqual(['G4 G4 G4 C4', 2]);
  });

  it('transposes a macro to the note that it finds, over the octave too', () => {
    const { score } = read(tune('m: ~n3 = n{o}n{m}n\n', '~B3 ~c3 ~C,3 | ~g3 |'));
    expect(pitches(score)).toBe('B4 B4 B4 C5 C5 C5 C3 C3 C3 G5 G5 G5');
    expect(
      score.graces.map(({ sound }) => (sound.kind === 'pitched' ? `${sound.written.step}${sound.written.octave}` : '')),
    ).toEqual(['C5', 'A4', 'D5', 'B4', 'D3', 'B2', 'A5', 'F5']);
  });

  it('names the column of the line as it is written', () => {
    const abc = abcToMusicXml(tune('m: ~n3 = n{o}n{m}n\n', '~C3 # |'));
    expect(abc.issues[0]?.where).toEqual({ kind: 'text', lineNumber: 7, column: 5 });
  });

  // ABC 2.1, "U: - user defined": “U: T = !trill! … the letters H-W and h-w and the symbol ~ … !nil! or !none! removes”, from memory.
  it('takes letters for decorations and words, and takes them away again', () => {
    const { score, told } = read(tune('U: W = !fermata!\nU: q = "^dolce"\nU: T = !nil!\n', 'WC qD TE F |'));
    expect(score.notes.map(({ techniques }) => techniques.join())).toEqual(['fermata', '', '', '']);
    expect(score.words.map(({ text }) => text)).toEqual(['dolce']);
    expect(told).toEqual([]);
  });

  it('leaves a macro out that would make the tune endless', () => {
    const { issues } = abcToMusicXml(tune(`m: h = ${'C'.repeat(2000)}\n`, `${'h'.repeat(1000)}C|`));
    expect(issues[0]?.detail).toContain('too long');
  });
});
