import { describe, expect, it } from 'vitest';
import { measuresXml } from '../../../tests/support/measures.ts';
import { factsOf } from '../../score/facts.ts';
import { readMusicXml, type ReadScore } from './read-score.ts';

function read(...bars: readonly string[]): ReadScore {
  const source = { fileName: 'tiny.musicxml', firstNoteNumber: 1, firstBarNumber: 1 };
  const result = readMusicXml(new TextEncoder().encode(measuresXml(bars, { name: 'Guitar' })), source);
  if (!result.ok) throw new Error(result.refusal.map(({ detail }) => detail).join('; '));
  return result.value;
}

const tie = (...types: readonly ('start' | 'stop')[]): string => types.map((type) => `<tie type="${type}"/>`).join('');
const note = (quarters: number, ties = '', more = '', step = 'C'): string =>
  `<note>${more.includes('chord') ? '<chord/>' : ''}<pitch><step>${step}</step><octave>4</octave></pitch><duration>${quarters * 24}</duration>${ties}<voice>1</voice>${more.replace('<chord/>', '')}</note>`;
const grace = note(1, tie('start'))
  .replace('<note>', '<note><grace/>')
  .replace(/<duration>.*<\/duration>/, '');
const left = (content: string): string => `<barline location="left">${content}</barline>`;
const right = (content: string): string => `<barline location="right">${content}</barline>`;
const starts = (number: number): string => left(`<ending number="${number}" type="start"/>`);
const stops = (number: number): string => `<ending number="${number}" type="stop"/>`;
const back = '<repeat direction="backward"/>';
const ties = ({ issues }: ReadScore): string[] =>
  issues.filter(({ code }) => code === 'tie-unresolved').map(({ detail }) => detail);
const lengths = ({ score }: ReadScore): number[] =>
  score.notes.map(({ lengthTicks }) => lengthTicks / score.ticksPerQuarter);

describe('a tie from a grace note to its main note', () => {
  it('strikes the main note once and is nothing to tell', () => {
    const result = read(grace + note(4, tie('stop')));
    expect([lengths(result), result.score.graces.length, ties(result)]).toEqual([[4], 1, []]);
  });
});

describe('ties (MusicXML 4.0, tie)', () => {
  it('over barlines, three bars long, are one pluck', () => {
    const result = read(note(4, tie('start')), note(4, tie('stop', 'start')), note(4, tie('stop')));
    expect(lengths(result)).toEqual([12]);
    expect(ties(result)).toEqual([]);
  });

  it('of some notes of a chord hold those alone', () => {
    const first = note(2, tie('start')) + note(2, '', '<chord/>', 'E');
    const result = read(first + note(2, tie('stop')) + note(2, '', '<chord/>', 'E'));
    expect(lengths(result)).toEqual([2, 4, 2]);
  });

  it('from staff to staff of one voice are one pluck', () => {
    const result = read(note(2, tie('start'), '<staff>1</staff>') + note(2, tie('stop'), '<staff>2</staff>'));
    expect(lengths(result)).toEqual([4]);
  });

  it('into the first and the second ending are one pluck, held over on the second pass', () => {
    const result = read(
      note(4, tie('start')),
      starts(1) + note(2, tie('stop')) + note(2, '', '', 'D') + right(stops(1) + back),
      starts(2) + note(1, tie('stop', 'start')) + note(1, tie('stop')) + note(2, '', '', 'E') + right(stops(2)),
    );
    expect(factsOf(result.score)).toMatchObject({ heads: 6, plucks: 3 });
    expect(lengths(result)).toEqual([6, 2, 2]);
    expect(result.score.notes[0]!.heads).toHaveLength(4);
    expect(result.score.heldOvers).toEqual([{ note: 'n1', bar: 'b3', onsetTicks: 192, lengthTicks: 48 }]);
    expect(ties(result)).toEqual([]);
  });

  it('into a second ending alone are one pluck too', () => {
    const result = read(
      note(4, tie('start')),
      starts(1) + note(4, '', '', 'D') + right(stops(1) + back),
      starts(2) + note(4, tie('stop')),
    );
    expect(lengths(result)).toEqual([4, 4]);
    expect(result.score.heldOvers).toHaveLength(1);
    expect(ties(result)).toEqual([]);
  });

  it('from To Coda into the coda are one pluck', () => {
    const say = (words: string): string =>
      `<direction><direction-type><words>${words}</words></direction-type></direction>`;
    const result = read(
      note(4, tie('start')) + say('To Coda'),
      note(4, tie('stop')) + say('D.C. al Coda'),
      say('Coda') + note(4, tie('stop')),
    );
    expect(lengths(result)).toEqual([8]);
    expect(result.score.heldOvers).toMatchObject([{ bar: 'b3', lengthTicks: 96 }]);
    expect(ties(result)).toEqual([]);
  });

  it('that never end keep their note and are told with their place', () => {
    const result = read(note(2, '', '', 'D') + note(2, tie('start')), note(4, '', '', 'E'));
    expect(lengths(result)).toEqual([2, 2, 4]);
    expect(result.issues.find(({ code }) => code === 'tie-unresolved')!.where).toMatchObject({
      barOrdinal: 1,
      beat: 3,
    });
  });

  it('without an end that ring on are let ring, not errors (MusicXML 4.0, tied: let-ring)', () => {
    const result = read(note(4, '', '<notations><tied type="let-ring"/></notations>'));
    expect(result.score.notes[0]!.techniques).toEqual(['letRing']);
    expect(ties(result)).toEqual([]);
  });
});
