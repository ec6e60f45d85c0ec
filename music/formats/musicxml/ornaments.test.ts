import { describe, expect, it } from 'vitest';
import { measuresXml } from '../../../tests/support/measures.ts';
import { readMusicXml, type ReadScore } from './read-score.ts';

function read(bar: string, more = ''): ReadScore {
  const source = { fileName: 'tiny.musicxml', firstNoteNumber: 1, firstBarNumber: 1 };
  const attributes = `<time><beats>4</beats><beat-type>4</beat-type></time>${more}`;
  const result = readMusicXml(new TextEncoder().encode(measuresXml([bar], { attributes })), source);
  if (!result.ok) throw new Error(result.refusal.map(({ detail }) => detail).join('; '));
  return result.value;
}

const note = (signs: string, more = '', notations = ''): string =>
  `<note><pitch><step>E</step><octave>4</octave></pitch><duration>48</duration>${more}<voice>1</voice>` +
  `<notations>${notations}<ornaments>${signs}</ornaments></notations></note>`;
const ornamentsOf = ({ score }: ReadScore): unknown => score.notes.map(({ ornaments }) => ornaments);
const kept = ({ issues }: ReadScore): string[] =>
  issues.filter(({ code }) => code === 'element-kept').map(({ detail }) => /“(.*?)”/.exec(detail)![1]!);

describe('ornaments (MusicXML 4.0, ornaments)', () => {
  it.each([
    ['<trill-mark/>', { kind: 'trill' }],
    ['<mordent/>', { kind: 'mordent' }],
    ['<inverted-mordent/>', { kind: 'invertedMordent' }],
    ['<turn/>', { kind: 'turn' }],
    ['<inverted-turn/>', { kind: 'invertedTurn' }],
    ['<delayed-turn/>', { kind: 'delayedTurn' }],
    ['<delayed-inverted-turn/>', { kind: 'delayedInvertedTurn' }],
    ['<tremolo type="single">3</tremolo>', { kind: 'tremolo', strokes: 3 }],
    ['<trill-mark/><accidental-mark>sharp</accidental-mark>', { kind: 'trill', alterAbove: 1 }],
    ['<mordent/><accidental-mark>natural</accidental-mark>', { kind: 'mordent', alterBelow: 0 }],
    [
      '<turn/><accidental-mark placement="above">flat</accidental-mark><accidental-mark placement="below">sharp</accidental-mark>',
      { kind: 'turn', alterAbove: -1, alterBelow: 1 },
    ],
  ])('%s is read, and not told as kept', (signs, ornament) => {
    const found = read(note(signs) + note(signs));
    expect(ornamentsOf(found)).toEqual([[ornament], [ornament]]);
    expect(kept(found)).toEqual([]);
  });

  it('stand once for a chain of ties, and a wavy line belongs to its trill', () => {
    const found = read(
      note('<trill-mark/><wavy-line type="start"/>', '<tie type="start"/>', '<tied type="start"/>') +
        note('<wavy-line type="stop"/>', '<tie type="stop"/>', '<tied type="stop"/>'),
    );
    expect(found.score.notes).toHaveLength(1);
    expect(found.score.notes[0]).toMatchObject({ ornaments: [{ kind: 'trill' }], techniques: [], lengthTicks: 96 });
  });

  it('keep the distance of their accidentals where the part transposes', () => {
    const transpose = '<transpose><diatonic>-1</diatonic><chromatic>-2</chromatic></transpose>';
    const { score } = read(note('<trill-mark/><accidental-mark>sharp</accidental-mark>'), transpose);
    expect(score.notes[0]).toMatchObject({
      sound: { soundingMidi: 62 },
      ornaments: [{ kind: 'trill', alterAbove: 0 }],
    });
  });

  it('are found by their own names alone, and accidentals that are not read are told', () => {
    const strange = read(note('<constructor/><trill-mark/><accidental-mark>constructor</accidental-mark>'));
    expect(ornamentsOf(strange)).toEqual([[{ kind: 'trill' }]]);
    expect(strange.score.notes[0]!.techniques).toEqual([]);
    expect(kept(strange)).toContain('accidental-mark');
    expect(kept(read(note('<turn/><accidental-mark>quarter-sharp</accidental-mark>')))).toEqual(['accidental-mark']);
  });

  it('that are not of one note, and accidentals elsewhere, are told', () => {
    const between = read(note('<tremolo type="start">2</tremolo>') + note('<tremolo type="stop">2</tremolo>'));
    expect(ornamentsOf(between)).toEqual([undefined, undefined]);
    expect(kept(between)).toEqual(['tremolo']);
    expect(kept(read(note('<turn/>', '', '<accidental-mark>sharp</accidental-mark>')))).toEqual(['accidental-mark']);
  });
});
