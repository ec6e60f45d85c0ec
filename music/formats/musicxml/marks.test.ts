import { describe, expect, it } from 'vitest';
import { measuresXml } from '../../../tests/support/measures.ts';
import type { Score } from '../../score/score.ts';
import { readMusicXml, type ReadScore } from './read-score.ts';

function read(xml: string): ReadScore {
  const source = { fileName: 'tiny.musicxml', firstNoteNumber: 1, firstBarNumber: 1 };
  const result = readMusicXml(new TextEncoder().encode(xml), source);
  if (!result.ok) throw new Error(result.refusal.map(({ detail }) => detail).join('; '));
  return result.value;
}

/** A note of two quarters with what stands in it after its duration. */
const noteXml = (step: string, more = '', before = ''): string =>
  `<note>${before}<pitch><step>${step}</step><octave>4</octave></pitch>${before.includes('grace') ? '' : '<duration>48</duration>'}<voice>1</voice>${more}</note>`;
const notations = (...signs: readonly string[]): string => `<notations>${signs.join('')}</notations>`;
const direction = (...types: readonly string[]): string =>
  `<direction>${types.map((type) => `<direction-type>${type}</direction-type>`).join('')}</direction>`;
const words = (text: string): string => direction(`<words>${text}</words>`);

/** Measures of MusicXML as they stand. */
const scoreOf = (...bars: readonly string[]): Score => read(measuresXml(bars)).score;

describe('lyrics (MusicXML 4.0, lyric)', () => {
  it('keep verse, text, place in the word and extension', () => {
    const { lyrics } = scoreOf(
      noteXml(
        'C',
        '<lyric number="1"><syllabic>begin</syllabic><text>la</text></lyric><lyric number="2"><syllabic>single</syllabic><text>oh</text><extend/></lyric>',
      ) +
        noteXml(
          'D',
          '<lyric number="1"><syllabic>end</syllabic><text>lo</text><elision>‿</elision><text>a</text></lyric>',
        ),
    );
    expect(lyrics).toEqual([
      { note: 'n1', verse: '1', text: 'la', syllabic: 'begin', isExtended: false },
      { note: 'n1', verse: '2', text: 'oh', syllabic: 'single', isExtended: true },
      { note: 'n2', verse: '1', text: 'lo‿a', syllabic: 'end', isExtended: false },
    ]);
  });

  it.each(['', 'constructor', 'alone'])('stand alone in their word where it says “%s”', (said) => {
    const { lyrics } = scoreOf(noteXml('C', `<lyric><syllabic>${said}</syllabic><text>la</text></lyric>`));
    expect(lyrics).toMatchObject([{ text: 'la', syllabic: 'single' }]);
  });
});

describe('slurs (MusicXML 4.0, slur)', () => {
  it('go from note to note, two at once by their numbers, from a grace note too', () => {
    const { slurs, graces } = scoreOf(
      noteXml('B', notations('<slur type="start" number="2"/>'), '<grace slash="yes"/>') +
        noteXml('C', notations('<slur type="stop" number="2"/>', '<slur type="start"/>')) +
        noteXml('D', notations('<slur type="stop"/>')),
    );
    expect(slurs).toEqual([
      { from: 'n1', to: 'n2' },
      { from: 'n2', to: 'n3' },
    ]);
    expect(graces.map(({ hasSlash }) => hasSlash)).toEqual([true]);
  });

  it('that never end are told', () => {
    const xml = measuresXml([noteXml('C', notations('<slur type="start"/>')) + noteXml('D')]);
    expect(read(xml).issues.map(({ code }) => code)).toEqual(['span-unresolved']);
  });
});

describe('chord symbols (MusicXML 4.0, harmony)', () => {
  const root = (step: string, alter = ''): string =>
    `<root><root-step>${step}</root-step>${alter === '' ? '' : `<root-alter>${alter}</root-alter>`}</root>`;

  it.each([
    [`${root('A')}<kind>minor-seventh</kind>`, 'Am7'],
    [`${root('B', '-1')}<kind>major</kind>`, 'B♭'],
    [`${root('C')}<kind>major</kind><bass><bass-step>E</bass-step></bass>`, 'C/E'],
    [`${root('F', '1')}<kind text="m7b5">half-diminished</kind>`, 'F♯m7b5'],
    [
      `${root('G')}<kind>dominant</kind><degree><degree-value>9</degree-value><degree-alter>-1</degree-alter><degree-type>add</degree-type></degree>`,
      'G7(♭9)',
    ],
    [`${root('C')}<kind>none</kind>`, 'N.C.'],
    ['<numeral><numeral-root text="V">5</numeral-root></numeral><kind text="7">dominant</kind>', 'V7'],
  ])('%s is %s', (content, text) => {
    const { chordSymbols, ticksPerQuarter } = scoreOf(`${noteXml('C')}<harmony>${content}</harmony>${noteXml('D')}`);
    expect(chordSymbols.map((symbol) => [symbol.onsetTicks / ticksPerQuarter, symbol.text])).toEqual([[2, text]]);
  });

  it('stand where their offset puts them', () => {
    const { chordSymbols } = scoreOf(
      `<harmony>${root('C')}<kind>major</kind><offset>24</offset></harmony>${noteXml('C')}`,
    );
    expect(chordSymbols).toEqual([
      { onsetTicks: 24, text: 'C', root: { step: 'C', alter: 0 }, kind: 'major', bass: null },
    ]);
  });
});

describe('words', () => {
  // What words mean is common practice: no source.
  it.each([
    ['Verse 2', 'section'],
    ['Pre-Chorus', 'section'],
    ['Intro', 'section'],
    ['Refrain', 'section'],
    ['Allegro ma non troppo', 'tempo'],
    ['rit.', 'tempo'],
    ['Swing feel', 'swing'],
    ['Capo 3', 'capo'],
    ['D.S. al Coda', 'jump'],
    ['½ CIII', 'barre'],
    ['with the nail', 'other'],
    ['Cantabile', 'other'],
    ['Coda', 'jump'],
    ['sul tasto', 'other'],
  ])('“%s” are %s', (text, kind) => {
    expect(scoreOf(words(text) + noteXml('C')).words).toMatchObject([{ text, kind, onsetTicks: 0, part: 'P1' }]);
  });

  it('beside a metronome mark are words of tempo (MusicXML 4.0, metronome)', () => {
    const metronome = '<metronome><beat-unit>quarter</beat-unit><per-minute>88</per-minute></metronome>';
    const { words: found, tempos } = scoreOf(direction('<words>Con anima</words>', metronome) + noteXml('C'));
    expect(found.map(({ kind }) => kind)).toEqual(['tempo']);
    expect(tempos).toEqual([{ onsetTicks: 0, quartersPerMinute: 88 }]);
  });

  it('that are cut into pieces are one sentence', () => {
    const { bars } = scoreOf(noteXml('C') + direction('<words>D.S.</words>', '<words>al Fine</words>'));
    expect(bars[0]!.jumps).toEqual(['dalSegno']);
  });
});

describe('swing', () => {
  it('is not guessed from words whose sound tells it', () => {
    const told = `<direction><direction-type><words>Swing</words></direction-type><sound><swing><first>3</first><second>2</second></swing></sound></direction>`;
    const { score, issues } = read(measuresXml([told + noteXml('C')]));
    expect(score.swings).toEqual([{ onsetTicks: 0, long: 3, short: 2, unit: 'eighth', isAssumed: false }]);
    expect(issues.map(({ code }) => code)).not.toContain('swing-assumed');
  });

  it('is read from the sound (MusicXML 4.0, swing), also where it is straight again', () => {
    const swing = (content: string): string => `<sound><swing>${content}</swing></sound>`;
    const { swings } = scoreOf(
      `${swing('<first>3</first><second>2</second><swing-type>16th</swing-type>')}${noteXml('C')}${swing('<straight/>')}${noteXml('D')}`,
    );
    expect(swings).toEqual([
      { onsetTicks: 0, long: 3, short: 2, unit: '16th', isAssumed: false },
      { onsetTicks: 48, long: 1, short: 1, unit: 'eighth', isAssumed: false },
    ]);
  });

  it('in words is two to one, assumed and told', () => {
    const { score, issues } = read(measuresXml([words('Medium swing') + noteXml('C') + noteXml('D')]));
    expect(score.swings).toEqual([{ onsetTicks: 0, long: 2, short: 1, unit: 'eighth', isAssumed: true }]);
    expect(issues.map(({ code }) => code)).toEqual(['swing-assumed']);
  });

  it('may be drawn as an equation of note values (MusicXML 4.0, metronome-note)', () => {
    const note = (type: string, tuplet = ''): string =>
      `<metronome-note><metronome-type>${type}</metronome-type>${tuplet}</metronome-note>`;
    const triplet =
      '<metronome-tuplet type="start"><actual-notes>3</actual-notes><normal-notes>2</normal-notes></metronome-tuplet>';
    const drawn = `<metronome>${note('eighth')}${note('eighth')}<metronome-relation>equals</metronome-relation>${note('quarter', triplet)}${note('eighth')}</metronome>`;
    expect(scoreOf(direction(drawn) + noteXml('C')).swings).toEqual([
      { onsetTicks: 0, long: 2, short: 1, unit: 'eighth', isAssumed: false },
    ]);
  });
});

describe('dynamics (MusicXML 4.0, dynamics)', () => {
  it('keep levels beyond ppp and fff, accents, and what an accent leaves the music at', () => {
    const at = (name: string): string => direction(`<dynamics><${name}/></dynamics>`);
    const { dynamics } = scoreOf(
      `${at('pppp')}${noteXml('C')}${at('fp')}${noteXml('D', notations('<dynamics><ffff/></dynamics>'))}`,
    );
    expect(dynamics).toEqual([
      { kind: 'level', onsetTicks: 0, level: 'pppp' },
      { kind: 'accent', onsetTicks: 48, sign: 'fp' },
      { kind: 'level', onsetTicks: 48, level: 'p' },
      { kind: 'level', onsetTicks: 48, level: 'ffff' },
    ]);
  });
});

describe('tuplets (MusicXML 4.0, tuplet)', () => {
  const value = (actual: number, normal: number): string =>
    `<time-modification><actual-notes>${actual}</actual-notes><normal-notes>${normal}</normal-notes></time-modification>`;
  const short = (duration: number, more: string): string =>
    `<note><pitch><step>C</step><octave>4</octave></pitch><duration>${duration}</duration><voice>1</voice>${more}</note>`;

  it('within tuplets have their depth; their ratio is what the outer one leaves', () => {
    const inner = [
      notations(
        '<tuplet type="start" number="1"/>',
        '<tuplet type="start" number="2"><tuplet-actual><tuplet-number>3</tuplet-number></tuplet-actual><tuplet-normal><tuplet-number>2</tuplet-number></tuplet-normal></tuplet>',
      ),
      '',
      notations('<tuplet type="stop" number="2"/>'),
    ];
    const outer = value(3, 2);
    const nested = inner.map((signs, index) => {
      const marked =
        index === 0
          ? signs.replace(
              'number="1"/>',
              'number="1"><tuplet-actual><tuplet-number>3</tuplet-number></tuplet-actual><tuplet-normal><tuplet-number>2</tuplet-number></tuplet-normal></tuplet>',
            )
          : signs;
      return short(32 / 3, value(9, 4) + marked);
    });
    const rest = [short(16, outer), short(16, outer + notations('<tuplet type="stop" number="1"/>'))];
    const xml = [...nested, ...rest].join('').replaceAll('10.666666666666666', '10.667');
    const { tuplets, ticksPerQuarter } = scoreOf(xml);
    const round = (ticks: number): number => Math.round((ticks / ticksPerQuarter) * 100) / 100;
    expect(
      tuplets.map((one) => [round(one.onsetTicks), round(one.endTicks), one.actual, one.normal, one.depth]),
    ).toEqual([
      [0, 2.67, 3, 2, 1],
      [0, 1.33, 3, 2, 2],
    ]);
  });

  it('may be written from their end to their beginning', () => {
    const third = value(3, 2);
    const bracket = (type: string): string => third + notations(`<tuplet type="${type}"/>`);
    const back = (duration: number): string => `<backup><duration>${duration}</duration></backup>`;
    const { score, issues } = read(
      measuresXml([
        `<forward><duration>32</duration></forward>${short(16, bracket('stop'))}${short(16, bracket('start'))}${short(16, third)}${short(16, bracket('stop'))}${back(96)}${short(16, bracket('start'))}${short(16, third)}`,
      ]),
    );
    expect(score.tuplets.map(({ onsetTicks, endTicks }) => [onsetTicks, endTicks])).toEqual([
      [0, 48],
      [48, 96],
    ]);
    expect(issues).toEqual([]);
  });

  it('may be on rests and need no numbers of their own', () => {
    const third = value(3, 2);
    const rest = `<note><rest/><duration>16</duration><voice>1</voice>${third}${notations('<tuplet type="start"/>')}</note>`;
    const { tuplets } = scoreOf(rest + short(16, third) + short(16, third + notations('<tuplet type="stop"/>')));
    expect(tuplets).toMatchObject([{ onsetTicks: 0, endTicks: 48, actual: 3, normal: 2, depth: 1 }]);
  });
});

describe('bends (MusicXML 4.0, bend)', () => {
  it('keep how far, and whether they come before the pluck or go back', () => {
    const bends = ['<pre-bend/>', '', '<release/>'].map(
      (kind, index) => `<bend><bend-alter>${index === 1 ? '1.5' : '2'}</bend-alter>${kind}</bend>`,
    );
    const { bends: found } = scoreOf(noteXml('C', notations(`<technical>${bends.join('')}</technical>`)));
    expect(found).toEqual([
      { note: 'n1', kind: 'preBend', semitones: 2 },
      { note: 'n1', kind: 'bend', semitones: 1.5 },
      { note: 'n1', kind: 'release', semitones: 2 },
    ]);
  });
});

describe('barres in words', () => {
  // Common practice among guitarists: no source.
  it.each([
    ['CIII', 3, false],
    ['C VII', 7, false],
    ['½ C II', 2, true],
    ['BV', 5, false],
    ['Barré 4', 4, false],
  ])('“%s” lies at fret %i', (text, fret, isPartial) => {
    expect(scoreOf(words(text) + noteXml('C')).barres).toEqual([{ onsetTicks: 0, endTicks: null, fret, isPartial }]);
  });
});

describe('clefs (MusicXML 4.0, clef)', () => {
  it('are kept where they change, octave and line with them', () => {
    const bass =
      '<attributes><clef><sign>F</sign><line>4</line><clef-octave-change>-1</clef-octave-change></clef></attributes>';
    expect(scoreOf(noteXml('C') + bass + noteXml('D')).clefs).toEqual([
      { part: 'P1', staff: 1, onsetTicks: 0, sign: 'G', staffLine: 2, octave: 0 },
      { part: 'P1', staff: 1, onsetTicks: 48, sign: 'F', staffLine: 4, octave: -1 },
    ]);
  });
});

describe('dynamics of several parts', () => {
  const part = (id: string, level: string): string =>
    `<part id="${id}"><measure number="1"><attributes><divisions>1</divisions></attributes><direction><direction-type><dynamics><${level}/></dynamics></direction-type></direction><note><pitch><step>C</step><octave>4</octave></pitch><duration>4</duration></note></measure></part>`;
  const dynamicsOf = (first: string, second: string): unknown => {
    const list = ['A', 'B'].map((id) => `<score-part id="${id}"><part-name>Flute</part-name></score-part>`).join('');
    const xml = `<score-partwise version="4.0"><part-list>${list}</part-list>${part('A', first)}${part('B', second)}</score-partwise>`;
    const source = { fileName: 'tiny.musicxml', firstNoteNumber: 1, firstBarNumber: 1 };
    const result = readMusicXml(new TextEncoder().encode(xml), source);
    return result.ok ? result.value.score.dynamics : null;
  };

  it('are for the part that says them, and once for all where all say the same', () => {
    expect(dynamicsOf('p', 'f')).toEqual([
      { kind: 'level', onsetTicks: 0, level: 'p', parts: ['A'] },
      { kind: 'level', onsetTicks: 0, level: 'f', parts: ['B'] },
    ]);
    expect(dynamicsOf('p', 'p')).toEqual([{ kind: 'level', onsetTicks: 0, level: 'p' }]);
  });
});
