import { describe, expect, it } from 'vitest';
import { readMusicXml, type ReadScore } from './read-score.ts';

function read(root: 'score-partwise' | 'score-timewise', body: string): ReadScore {
  const list = ['P1', 'P2'].map((id) => `<score-part id="${id}"><part-name>${id}</part-name></score-part>`).join('');
  const xml = `<${root} version="4.0"><part-list>${list}</part-list>${body}</${root}>`;
  const source = { fileName: 'tiny.musicxml', firstNoteNumber: 1, firstBarNumber: 1 };
  const result = readMusicXml(new TextEncoder().encode(xml), source);
  if (!result.ok) throw new Error(result.refusal.map(({ detail }) => detail).join('; '));
  return result.value;
}

const note = (duration: number, step: string): string =>
  `<note><pitch><step>${step}</step><octave>4</octave></pitch><duration>${duration}</duration></note>`;
const attributes = (content: string): string => `<attributes>${content}</attributes>`;
const divisions = (count: number): string => attributes(`<divisions>${count}</divisions>`);
const placesOf = ({ score }: ReadScore): (readonly [number, number])[] =>
  score.notes.map(({ onsetTicks, lengthTicks }) => [
    onsetTicks / score.ticksPerQuarter,
    lengthTicks / score.ticksPerQuarter,
  ]);

describe('a part that a timewise measure leaves out (MusicXML 4.0, score-timewise)', () => {
  it('has an empty bar there, and goes on in its place', () => {
    const part = (id: string, content: string): string => `<part id="${id}">${content}</part>`;
    const result = read(
      'score-timewise',
      `<measure number="1">${part('P1', divisions(1) + note(4, 'C'))}</measure>` +
        `<measure number="2">${part('P1', note(4, 'D'))}${part('P2', divisions(1) + note(4, 'G'))}</measure>` +
        `<measure number="3">${part('P2', note(2, 'A'))}</measure>`,
    );
    expect(result.score.bars).toHaveLength(3);
    expect(result.score.notes.map(({ bar, sound }) => [bar, sound.kind === 'pitched' && sound.written.step])).toEqual([
      ['b1', 'C'],
      ['b2', 'G'],
      ['b2', 'D'],
      ['b3', 'A'],
    ]);
  });
});

const parts = (first: string, second: string): string =>
  `<part id="P1"><measure number="1">${first}</measure></part><part id="P2"><measure number="1">${second}</measure></part>`;

describe('a part without divisions', () => {
  it('counts in those of the part before it, and that is told', () => {
    const result = read('score-partwise', parts(divisions(8) + note(32, 'C'), note(8, 'E') + note(24, 'F')));
    expect(placesOf(result)).toEqual([
      [0, 1],
      [0, 4],
      [1, 3],
    ]);
    expect(result.issues).toMatchObject([{ code: 'value-repaired', where: { part: 'P2', barOrdinal: 1, beat: 1 } }]);
  });
});

describe('a key that one part alone has', () => {
  it('is the key of the bars', () => {
    const keyed = `${divisions(1)}${attributes('<key><fifths>-3</fifths></key>')}${note(4, 'C')}`;
    const plain = divisions(1) + note(4, 'C');
    expect(read('score-partwise', parts(plain, keyed)).score.bars[0]!.key.fifths).toBe(-3);
    expect(read('score-partwise', parts(keyed, plain)).score.bars[0]!.key.fifths).toBe(-3);
  });
});
