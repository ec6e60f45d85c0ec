import { describe, expect, it } from 'vitest';
import { tinyScore, type TinyOptions } from '../../../tests/support/tiny-musicxml.ts';
import { nameOf } from '../../basis/pitch.ts';
import { playingOrder } from '../../form/playing-order.ts';
import { factsOf } from '../../score/facts.ts';
import type { Score } from '../../score/score.ts';
import { readMusicXml, type ReadScore } from './read-score.ts';

function read(xml: string): ReadScore {
  const source = { fileName: 'tiny.musicxml', firstNoteNumber: 1, firstBarNumber: 1 };
  const result = readMusicXml(new TextEncoder().encode(xml), source);
  if (!result.ok) throw new Error(result.refusal.map(({ detail }) => detail).join('; '));
  return result.value;
}

const guitar = (more = ''): TinyOptions => ({
  name: 'Guitar',
  attributes: `<time><beats>4</beats><beat-type>4</beat-type></time>${more}<clef><sign>G</sign><line>2</line><clef-octave-change>-1</clef-octave-change></clef>`,
});

const withTablature: TinyOptions = {
  name: 'Guitar',
  attributes:
    '<time><beats>4</beats><beat-type>4</beat-type></time><staves>2</staves><clef number="1"><sign>G</sign><line>2</line><clef-octave-change>-1</clef-octave-change></clef><clef number="2"><sign>TAB</sign><line>5</line></clef>',
};

const noteXml = (pitch: string, duration: string, more = ''): string => {
  const [step, octave] = pitch;
  return `<note><pitch><step>${step}</step><octave>${octave}</octave></pitch><duration>${duration}</duration>${more}</note>`;
};

const onString = (string: number, fret: number, more = ''): string =>
  `<notations><technical><string>${string}</string><fret>${fret}</fret>${more}</technical></notations>`;

const places = (score: Score): string[] =>
  score.notes.map(({ onsetTicks, lengthTicks }) =>
    [onsetTicks, lengthTicks].map((ticks) => ticks / score.ticksPerQuarter).join(':'),
  );

const sounds = (score: Score): string[] =>
  score.notes.map(({ sound }) =>
    sound.kind === 'hit'
      ? `${sound.hit}${sound.isCertain ? '' : '?'}`
      : `${nameOf(sound.sounding)}${sound.sounding.octave}`,
  );

const codes = ({ issues }: ReadScore): string[] =>
  issues.map(({ code }) => code).filter((code) => code !== 'tuning-assumed');

describe('durations', () => {
  it('may be fractions of a division, as the schema has them (MusicXML 4.0, positive-divisions)', () => {
    const music = noteXml('C4', '0.75') + noteXml('D4', '.250') + noteXml('E4', '1.0') + noteXml('F4', '2');
    const result = read(tinyScore([music, guitar()]).replace('<divisions>24<', '<divisions>1<'));
    expect(places(result.score)).toEqual(['0:0.75', '0.75:0.25', '1:1', '2:2']);
    expect(codes(result)).toEqual([]);
  });

  it('that are written as rounded thirds are rounded to the grid, and that is said', () => {
    const third = noteXml('C4', '0.333333');
    const result = read(tinyScore([third + third + third, guitar()]).replace('<divisions>24<', '<divisions>1<'));
    const { notes, ticksPerQuarter } = result.score;
    expect(notes.map(({ onsetTicks }) => (onsetTicks * 3) / ticksPerQuarter)).toEqual([0, 1, 2]);
    expect(codes(result)).toContain('value-repaired');
  });
});

describe('a note without a duration', () => {
  it('lasts as long as it is printed, and that is told', () => {
    const half = '<type>half</type>';
    const third =
      '<type>quarter</type><time-modification><actual-notes>3</actual-notes><normal-notes>2</normal-notes></time-modification>';
    const values = [`${half}<dot/>`, third, third, third].map((value) => noteXml('C4', 'none', value));
    const music = values.join('').replaceAll('<duration>none</duration>', '');
    const result = read(tinyScore([music, guitar('')]));
    const { notes, ticksPerQuarter } = result.score;
    expect(notes.map(({ lengthTicks }) => (lengthTicks * 3) / ticksPerQuarter)).toEqual([9, 2, 2, 2]);
    expect(codes(result)).toEqual([
      'value-repaired',
      'value-repaired',
      'value-repaired',
      'value-repaired',
      'bar-overfull',
    ]);
  });
});

describe('frets in brackets that are said to be proposals', () => {
  it('are not those of the notes after them', () => {
    const field =
      '<identification><miscellaneous><miscellaneous-field name="heddle-frets-in-brackets">proposed</miscellaneous-field></miscellaneous></identification>';
    const xml = tinyScore(['E4:h@1/0 F4:h@1/1', guitar()]).replace('<part-list>', `${field}<part-list>`);
    const { notes } = read(
      xml.replace('<notations>', '<notehead parentheses="yes">normal</notehead><notations>'),
    ).score;
    expect(notes.map(({ fingerboard }) => fingerboard)).toEqual([null, { string: 1, fret: 1 }]);
  });
});

describe('a rest of a whole bar', () => {
  const whole = (duration: string): string => `<note><rest/><wholeBar/>${duration}</note>`;
  const threeFour = { ...guitar(), attributes: '<time><beats>3</beats><beat-type>4</beat-type></time>' };
  const lengthsOf = (xml: string): (readonly [number, readonly number[]])[] => {
    const { bars, rests, ticksPerQuarter } = read(xml.replaceAll('<rest/><wholeBar/>', '<rest measure="yes"/>')).score;
    return bars.map(({ id, lengthTicks }) => [
      lengthTicks / ticksPerQuarter,
      rests.filter(({ bar }) => bar === id).map((rest) => rest.lengthTicks / ticksPerQuarter),
    ]);
  };

  it('makes no bar longer that notes fill', () => {
    const xml = tinyScore(['C4:h. | C4:h.', threeFour], [`${whole('<duration>96</duration>')} | C4:h.`, threeFour]);
    expect(lengthsOf(xml)).toEqual([
      [3, [3]],
      [3, []],
    ]);
  });

  it('is as long as its bar where it has no duration', () => {
    expect(lengthsOf(tinyScore(['<note><rest/><type>whole</type></note> | C4:h.', threeFour]))).toEqual([
      [3, [3]],
      [3, []],
    ]);
  });

  it('lasts as long as it says where that is less', () => {
    expect(lengthsOf(tinyScore([`${whole('<duration>24</duration>')} | C4:h.`, threeFour]))[0]).toEqual([1, [1]]);
  });

  it('makes a pickup no longer than the notes of the other parts', () => {
    const xml = tinyScore(['C4:q | C4:h.', threeFour], [`${whole('<duration>72</duration>')} | C4:h.`, threeFour]);
    const pickup = xml.replaceAll('<measure number="1">', '<measure number="0" implicit="yes">');
    expect(lengthsOf(pickup)[0]).toEqual([1, [1]]);
  });
});

describe('a fret without a pitch', () => {
  const fretted = (sound: string, head = ''): string =>
    `<note>${sound}<duration>96</duration>${head}<notations><technical><string>2</string><fret>3</fret></technical></notations></note>`;
  const tablature = { name: 'Guitar', attributes: '<clef><sign>TAB</sign><line>5</line></clef>' };
  const midisOf = ({ score }: ReadScore): (number | null)[] =>
    score.notes.map(({ sound }) => (sound.kind === 'pitched' ? sound.soundingMidi : null));

  it.each([
    ['nothing', ''],
    ['an unpitched sound', '<unpitched/>'],
  ])('is the pitch of its string in tablature that has %s for it, and that is told', (_, sound) => {
    const result = read(tinyScore([fretted(sound), tablature]));
    expect(midisOf(result)).toEqual([62]);
    expect(result.issues).toContainEqual(
      expect.objectContaining({
        code: 'value-repaired',
        where: expect.objectContaining({ barOrdinal: 1, beat: 1 }) as object,
      }),
    );
  });

  it('is a hit where its head is a cross', () => {
    expect(midisOf(read(tinyScore([fretted('<unpitched/>', '<notehead>x</notehead>'), tablature])))).toEqual([null]);
  });
});

describe('a note for some passes only', () => {
  it('is told at its place', () => {
    const xml = tinyScore(['C4:h D4:h', guitar()]);
    const { score, issues } = read(xml.replace(/<note>(?=<pitch><step>D)/, '<note time-only="2">'));
    expect(score.notes).toHaveLength(2);
    expect(issues.filter(({ code }) => code === 'value-repaired')).toMatchObject([
      { where: { barOrdinal: 1, beat: 3 } },
    ]);
  });
});

describe('a backup beyond the start of its bar', () => {
  it('is told at the first beat', () => {
    const music = `${noteXml('C4', '24')}<backup><duration>96</duration></backup>${noteXml('C3', '96')}`;
    const { issues } = read(tinyScore([music, guitar()]));
    expect(issues.find(({ code }) => code === 'value-repaired')?.where).toMatchObject({ barOrdinal: 1, beat: 1 });
  });
});

describe('words of a capo', () => {
  const words = (text: string): ReadScore =>
    read(
      tinyScore(['C4:w', guitar()]).replace(
        '<note>',
        `<direction><direction-type><words>${text}</words></direction-type></direction><note>`,
      ),
    );

  it.each([
    ['Capodastre 3', 3],
    ['Capotasto III', 3],
    ['Kapodaster 2. Bund', 2],
    ['Cejilla en 4', 4],
    ['Capodastro al 2° tasto', 2],
    ['Da capo 2 times', 0],
    ['no capo', 0],
  ])('“%s” put it at fret %i', (text, fret) => {
    expect(words(text).score.parts[0]!.capoFret).toBe(fret);
  });

  it.each([['Partial capo 2 (strings 1-5)'], ['Short-cut capo on fret 2'], ['Capo 1/2 II']])(
    '“%s” lay it over some strings: it moves no pitch, and that is told',
    (text) => {
      const result = words(text);
      expect(result.score.parts[0]!.capoFret).toBe(0);
      expect(sounds(result.score)).toEqual(['C4']);
      expect(codes(result)).toContain('capo-assumed');
    },
  );
});

describe('rhythm slashes', () => {
  it('have no pitch', () => {
    const slash = noteXml('B4', '24', '<notehead>slash</notehead>');
    const result = read(tinyScore([slash.repeat(4), guitar()]));
    expect(sounds(result.score)).toEqual(['deadNote?', 'deadNote?', 'deadNote?', 'deadNote?']);
    expect(result.issues.filter(({ code }) => code === 'hit-uncertain')).toHaveLength(4);
  });

  it('that stand at pitches of a strum keep them', () => {
    const result = read(tinyScore([noteXml('E4', '96', '<notehead>slash</notehead>'), guitar()]));
    expect(sounds(result.score)).toEqual(['E4']);
  });
});

describe('one pitch on two strings at once', () => {
  it.each([
    ['by strings on the notation', 'v1s1 B3:w@2/0 ; v2s1 B3:w@3/4', guitar(), 2],
    ['by tablature beside it', 'v1s1 B3:w ; v2s1 B3:w ; v5s2 B3:w@2/0 ; v6s2 B3:w@3/4', withTablature, 4],
  ])('is two plucks, told %s', (_, music, options, heads) => {
    const { score } = read(tinyScore([music, options]));
    expect(factsOf(score)).toMatchObject({ heads, soundingNotes: 2, plucks: 2 });
    expect(score.notes.map(({ fingerboard }) => fingerboard!.string).toSorted()).toEqual([2, 3]);
  });

  it.each(['Guitar', 'Track 1'])('is as tablature in a part of its own beside “%s” says', (name) => {
    const tab: TinyOptions = { name: 'Tab', attributes: '<clef><sign>TAB</sign><line>5</line></clef>' };
    const notation = { ...guitar(), name };
    const told = (shown: string): object =>
      factsOf(read(tinyScore(['v1s1 B3:w ; v2s1 B3:w', notation], [shown, tab])).score);
    expect(told('v1s1 B3:w@2/0 ; v2s1 B3:w@3/4')).toMatchObject({ heads: 4, soundingNotes: 2, plucks: 2 });
    expect(told('v1s1 B3:w@2/0')).toMatchObject({ heads: 3, soundingNotes: 2, plucks: 1 });
  });

  it('is one where tablature shows one string', () => {
    const { score } = read(tinyScore(['v1s1 B3:w ; v2s1 B3:w ; v5s2 B3:w@2/0', withTablature]));
    expect(factsOf(score)).toMatchObject({ heads: 3, soundingNotes: 2, plucks: 1 });
  });
});

describe('natural harmonics', () => {
  const harmonic = '<harmonic><natural/></harmonic>';

  // A string touched at a half, a third, a quarter and a fifth of its length sounds its partials 2 to 5: acoustics, no source.
  it.each([
    ['E3', 12, 'E3'],
    ['B2', 7, 'B3'],
    ['A2', 5, 'E4'],
    ['B3', 7, 'B3'],
    ['B3', 19, 'B3'],
  ])('written %s over fret %i of the lowest string sound %s', (pitch, fret, wanted) => {
    const { score } = read(tinyScore([noteXml(pitch, '96', onString(6, fret, harmonic)), guitar()]));
    expect(sounds(score)).toEqual([wanted]);
  });

  it('may be written as they sound beside tablature that shows where they are touched', () => {
    const notation = noteXml('B3', '96', '<voice>1</voice><staff>1</staff>');
    const touched = noteXml('B2', '96', `<voice>5</voice><staff>2</staff>${onString(6, 7, harmonic)}`);
    const result = read(tinyScore([`${notation}<backup><duration>96</duration></backup>${touched}`, withTablature]));
    expect(sounds(result.score)).toEqual(['B3']);
    expect(codes(result)).not.toContain('tablature-disagrees');
  });
});

describe('returns in other words', () => {
  const say = (sign: string): string => `<direction><direction-type>${sign}</direction-type></direction>`;
  const orderOf = (toCoda: string, back: string, coda: string): string => {
    const xml = tinyScore(['C4:w | D4:w | E4:w | F4:w | G4:w', guitar()]);
    const signs = ['', '<segno/>', toCoda, back, coda].map((sign) => (sign === '' ? '' : say(sign)));
    let bar = 0;
    const { score } = read(xml.replace(/<\/measure>/g, () => `${signs[bar++]}</measure>`));
    return playingOrder(score)
      .map(({ bar: id }) => score.bars.findIndex((one) => one.id === id) + 1)
      .join('');
  };

  it.each([
    ['two bare coda signs', '<coda/>', '<words>D.S. al Coda</words>', '<coda/>'],
    ['words without dots', '<words>To Coda</words>', '<words>DS al Coda</words>', '<words>Coda</words>'],
  ])('are followed: %s', (_, toCoda, back, coda) => {
    expect(orderOf(toCoda, back, coda)).toBe('1234235');
  });
});
