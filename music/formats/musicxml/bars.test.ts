import { describe, expect, it } from 'vitest';
import { measuresXml } from '../../../tests/support/measures.ts';
import { readMusicXml, type ReadScore } from './read-score.ts';

function read(...bars: readonly string[]): ReadScore {
  const source = { fileName: 'tiny.musicxml', firstNoteNumber: 1, firstBarNumber: 1 };
  const result = readMusicXml(new TextEncoder().encode(measuresXml(bars)), source);
  if (!result.ok) throw new Error(result.refusal.map(({ detail }) => detail).join('; '));
  return result.value;
}

const note = (quarters: number, step = 'C', alter = 0): string =>
  `<note><pitch><step>${step}</step><alter>${alter}</alter><octave>4</octave></pitch><duration>${quarters * 24}</duration></note>`;
const attributes = (content: string): string => `<attributes>${content}</attributes>`;
const key = (fifths: number): string => attributes(`<key><fifths>${fifths}</fifths></key>`);
const time = (beats: number | string, unit: number): string =>
  attributes(`<time><beats>${beats}</beats><beat-type>${unit}</beat-type></time>`);
const codes = ({ issues }: ReadScore): string[] => issues.map(({ code }) => code);

describe('keys (MusicXML 4.0, key)', () => {
  it('that change within a bar are kept there, and are the key of the bars after it', () => {
    const { bars, keyChanges } = read(note(2) + key(2) + note(2), note(4)).score;
    expect(bars.map((bar) => bar.key.fifths)).toEqual([0, 2]);
    expect(keyChanges).toEqual([{ onsetTicks: 48, key: { fifths: 2, mode: null } }]);
  });

  it('that are announced at the end of a bar are those of the next', () => {
    const { bars, keyChanges } = read(note(4) + key(-3), note(4)).score;
    expect(bars.map((bar) => bar.key.fifths)).toEqual([0, -3]);
    expect(keyChanges).toEqual([]);
  });
});

describe('signatures that stand twice at one place', () => {
  it('are as the last of them says, where they are for the same staff', () => {
    const { score } = read(key(1) + key(-2) + time(2, 4) + time(3, 4) + note(3));
    expect([score.bars[0]!.key.fifths, score.bars[0]!.meter.beats]).toEqual([-2, [3]]);
  });

  it('are those of the first staff, where they are for single staves', () => {
    const each = (staff: number, fifths: number): string =>
      attributes(`<key number="${staff}"><fifths>${fifths}</fifths></key>`);
    expect(read(each(1, 2) + each(2, -3) + note(4)).score.bars[0]!.key.fifths).toBe(2);
    expect(read(each(2, -3) + each(1, 2) + note(4)).score.bars[0]!.key.fifths).toBe(2);
  });
});

describe('signatures that cannot be kept as they are', () => {
  it('are told at their place', () => {
    const { score, issues } = read(note(4), key(9) + time('C', 4) + note(4));
    expect([score.bars[1]!.key.fifths, score.bars[1]!.meter.beats]).toEqual([7, [4]]);
    expect(issues.map(({ code, where }) => [code, where])).toEqual([
      ['value-repaired', { kind: 'music', part: 'Flute', barOrdinal: 2, barLabel: '2', beat: 1 }],
      ['value-repaired', { kind: 'music', part: 'Flute', barOrdinal: 2, barLabel: '2', beat: 1 }],
    ]);
  });
});

describe('a number of staves that no part has', () => {
  it.each(['3999999999', '0', 'two'])('is told, and the staves that notes stand on are taken: %s', (claimed) => {
    const { score, issues } = read(attributes(`<staves>${claimed}</staves>`) + note(4));
    expect(score.parts[0]!.staves).toHaveLength(1);
    expect(issues.map(({ code, where }) => [code, where])).toEqual([
      ['value-repaired', { kind: 'music', part: 'Flute', barOrdinal: 1, barLabel: '1', beat: 1 }],
    ]);
  });
});

describe('meters (MusicXML 4.0, time)', () => {
  it('that are announced at the end of a bar are those of the next', () => {
    const result = read(note(4) + time(3, 4), note(3), time('2+3', 8) + note(2.5));
    expect(result.score.bars.map(({ meter }) => [...meter.beats, meter.beatUnit])).toEqual([
      [4, 4],
      [3, 4],
      [2, 3, 8],
    ]);
    expect(codes(result)).toEqual([]);
  });

  it('may be none: bars in free time are told apart and have no wrong length (senza-misura)', () => {
    const free = attributes('<time><senza-misura/></time>');
    const result = read(note(4), free + note(7), note(1.5), time(2, 4) + note(2));
    expect(result.score.unmeteredBars).toEqual(['b2', 'b3']);
    expect(result.score.bars.map(({ lengthTicks }) => lengthTicks / 24)).toEqual([4, 7, 1.5, 2]);
    expect(codes(result)).toEqual([]);
  });

  it('of several units in one signature are counted in the finest', () => {
    const signature = attributes(
      '<time><beats>2</beats><beat-type>4</beat-type><beats>3</beats><beat-type>8</beat-type></time>',
    );
    const [, bar] = read(note(4), signature + note(3.5)).score.bars;
    expect(bar!.meter).toEqual({ beats: [4, 3], beatUnit: 8 });
  });
});

describe('divisions (MusicXML 4.0, divisions)', () => {
  it('may change between bars and within them', () => {
    const tenth = `<note><pitch><step>D</step><octave>4</octave></pitch><duration>10</duration></note>`;
    const result = read(note(2) + attributes('<divisions>10</divisions>') + tenth + tenth, tenth.repeat(4));
    const { notes, ticksPerQuarter, bars } = result.score;
    expect(notes.map(({ onsetTicks }) => onsetTicks / ticksPerQuarter)).toEqual([0, 2, 3, 4, 5, 6, 7]);
    expect(bars.map(({ lengthTicks }) => lengthTicks / ticksPerQuarter)).toEqual([4, 4]);
    expect(codes(result)).toEqual([]);
  });
});

describe('transposition (MusicXML 4.0, transpose)', () => {
  it('that changes moves the notes after it', () => {
    const clarinet = (chromatic: number): string =>
      attributes(`<transpose><chromatic>${chromatic}</chromatic></transpose>`);
    const { notes, parts } = read(clarinet(-2) + note(4), clarinet(-3) + note(4)).score;
    expect(notes.map(({ sound }) => (sound.kind === 'pitched' ? sound.soundingMidi : 0))).toEqual([58, 57]);
    expect(parts[0]!.soundingShift).toBe(-2);
  });
});

describe('transposition of single staves (MusicXML 4.0, transpose: number)', () => {
  const soundingWith = (transposes: string, clefs: string): number[] => {
    const onStaff = (staff: number): string => note(4).replace('</note>', `<staff>${staff}</staff></note>`);
    const setup = attributes(`<staves>2</staves>${clefs}${transposes}`);
    const { notes } = read(
      setup + onStaff(1) + '<backup><duration>96</duration></backup>' + onStaff(2).replaceAll('C', 'G'),
    ).score;
    const onStaves = notes.toSorted((a, b) => a.voices[0]!.staff - b.voices[0]!.staff);
    return onStaves.map(({ sound }) => (sound.kind === 'pitched' ? sound.soundingMidi : 0));
  };
  const transpose = (staff: number, semitones: number): string =>
    `<transpose number="${staff}"><chromatic>${semitones}</chromatic></transpose>`;
  const clef = (staff: number, sign: string, line: number): string =>
    `<clef number="${staff}"><sign>${sign}</sign><line>${line}</line></clef>`;
  const notation = clef(1, 'G', 2) + clef(2, 'F', 4);

  it.each([
    ['both', transpose(1, -2) + transpose(2, 12), [58, 79]],
    ['the first', transpose(1, -2), [58, 67]],
    ['the second', transpose(2, -12), [60, 55]],
  ])('moves the notes of %s', (_, transposes, midis) => {
    expect(soundingWith(transposes, notation)).toEqual(midis);
  });

  it('is that of the notation where tablature beside it has another', () => {
    const tablatureFirst = clef(1, 'TAB', 5) + clef(2, 'G', 2);
    expect(soundingWith(transpose(1, 0) + transpose(2, -12), tablatureFirst)).toEqual([60, 55]);
  });
});

describe('a transposition that begins after notes', () => {
  it('leaves those notes where they are written, and moves the key with it', () => {
    const later = attributes(
      '<key><fifths>2</fifths></key><transpose><diatonic>-1</diatonic><chromatic>-2</chromatic></transpose>',
    );
    const { notes, bars } = read(note(4), later + note(4, 'D')).score;
    expect(notes.map(({ sound }) => (sound.kind === 'pitched' ? sound.soundingMidi : 0))).toEqual([60, 60]);
    expect(bars.map((bar) => bar.key.fifths)).toEqual([0, 0]);
  });
});

describe('endings (MusicXML 4.0, ending)', () => {
  const ending = (number: string, text = ''): string =>
    `<barline location="left"><ending number="${number}" type="start">${text}</ending></barline>`;

  it.each([
    ['1, 2', '', [1, 2]],
    ['1-3', '', [1, 2, 3]],
    ['1,3', '', [1, 3]],
    ['1', '1.–3.', [1, 2, 3]],
    ['2', '1.', [2]],
    ['', '1.–2.', [1, 2]],
    [' ', '2.', [2]],
  ])('“%s” with the text “%s” sounds on %j', (number, text, passes) => {
    expect(read(note(4), ending(number, text) + note(4)).score.bars[1]!.endings).toEqual(passes);
  });
});

describe('jumps in signs or words (common practice, no source)', () => {
  it.each([
    ['<segno/>', ['segno']],
    ['<words>𝄋</words>', ['segno']],
    ['<words>To 𝄌</words>', ['toCoda']],
    ['<words>D.C. al Fine</words>', ['daCapo']],
    ['<words>da capo</words>', ['daCapo']],
    ['<words>DS al Coda</words>', ['dalSegno']],
    ['<words>Dal segno</words>', ['dalSegno']],
    ['<words>Fine</words>', ['fine']],
    ['<words>(Fine)</words>', ['fine']],
    ['<words>D.S. al</words></direction-type><direction-type><coda/>', ['dalSegno']],
    ['<words>Dal</words><segno/><words>al</words><coda/>', ['dalSegno']],
    ['<words>To</words><coda/>', ['toCoda']],
    ['<rehearsal>Coda</rehearsal>', ['coda']],
    ['<rehearsal>Fine</rehearsal>', []],
    ['<words>Fin</words>', ['fine']],
    ['<words>finely</words>', []],
    ['<words>Finish softly</words>', []],
    ['<words>Fine</words><constructor/>', ['fine']],
    ['<words>“Da Capo al Fine”</words>', ['daCapo']],
    ['<words>Dal 𝄋 al 𝄌</words>', ['dalSegno']],
    ['<words>Del Segno</words>', ['dalSegno']],
    ['<words>(To ⊕)</words>', ['toCoda']],
    ['<words>Da Coda</words>', ['toCoda']],
    ['<words>Al Coda</words>', ['toCoda']],
    ['<words>to codas unknown</words>', []],
    ['<words>\uE046 al Fine</words>', ['daCapo']],
    ['<words>\uE047</words>', ['segno']],
    ['<words>𝄌 Coda</words>', ['coda']],
    ['<words>Coda II</words>', ['coda']],
    ['<words>To Coda</words></direction-type><direction-type><coda/>', ['toCoda']],
  ])('%s', (sign, jumps) => {
    const direction = `<direction><direction-type>${sign}</direction-type></direction>`;
    expect(read(note(4) + direction).score.bars[0]!.jumps).toEqual(jumps);
  });
});

describe('jumps that lead nowhere', () => {
  it('are told at their bar', () => {
    const say = (words: string): string =>
      `<direction><direction-type><words>${words}</words></direction-type></direction>`;
    const told = (...bars: readonly string[]): (number | string)[] =>
      read(...bars).issues.map(({ code, where }) => (where.kind === 'music' ? where.barOrdinal : code));
    expect(told(note(4), note(4) + say('To Coda'), note(4) + say('D.S. al Coda'))).toEqual([2, 3]);
    expect(told(say('Segno') + note(4) + say('To Coda'), note(4) + say('D.S. al Coda'), say('Coda') + note(4))).toEqual(
      [],
    );
  });
});

describe('a tempo in a direction (MusicXML 4.0, offset, sound)', () => {
  const tempo = (offset: string): string =>
    `<direction><direction-type><words>Allegro</words></direction-type>${offset}<sound tempo="120"/></direction>`;

  it.each([
    ['<offset>48</offset>', 0],
    ['<offset sound="yes">48</offset>', 48],
  ])('with %s is heard from tick %i on', (offset, onsetTicks) => {
    const { tempos, words } = read(tempo(offset) + note(4)).score;
    expect(tempos).toEqual([{ onsetTicks, quartersPerMinute: 120 }]);
    expect(words).toMatchObject([{ onsetTicks: 48, text: 'Allegro' }]);
  });
});
