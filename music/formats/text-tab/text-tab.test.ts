import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Issue } from '../../basis/issue.ts';
import type { Score } from '../../score/score.ts';
import { readMusicXml } from '../musicxml/read-score.ts';
import { serialiseXml } from '../xml/serialise-xml.ts';
import { textTabToMusicXml, type TextTabOptions } from './text-tab-to-musicxml.ts';

interface Read {
  readonly score: Score;
  readonly xml: string;
  readonly issues: readonly Issue[];
}

function read(text: string, options: TextTabOptions = {}): Read {
  const { value, issues } = textTabToMusicXml(text, options);
  const xml = serialiseXml({ doctype: null, before: [], root: value, after: [] });
  const source = { fileName: 'tab.musicxml', firstNoteNumber: 1, firstBarNumber: 1 };
  const result = readMusicXml(new TextEncoder().encode(xml), source);
  if (!result.ok) throw new Error(result.refusal.map(({ detail }) => detail).join(' '));
  return { score: result.value.score, xml, issues };
}

/** Bars as `onset:length string/fret=midi`, in quarter notes. */
function told({ score }: Read): string[] {
  const quarters = (ticks: number): number => Math.round((ticks / score.ticksPerQuarter) * 1000) / 1000;
  return score.bars.map((bar) =>
    score.notes
      .filter((note) => note.bar === bar.id)
      .map((note) => {
        const { string, fret } = note.fingerboard!;
        const sound = note.sound.kind === 'pitched' ? note.sound.soundingMidi : note.sound.hit;
        return `${quarters(note.onsetTicks - bar.onsetTicks)}:${quarters(note.lengthTicks)} ${string}/${fret}=${sound}`;
      })
      .join(', '),
  );
}

const techniques = ({ score }: Read): string[] =>
  score.notes
    .filter((note) => note.techniques.length > 0)
    .map((note) => `${note.fingerboard!.fret} ${note.techniques.join()}`);
const codes = ({ issues }: Read): string[] => issues.map(({ code }) => code);

/** Six strings, those not named empty; `s1` is the highest. */
function six(strings: Readonly<Record<number, string>>, labels = 'eBGDAE'): string {
  const width = Math.max(...Object.values(strings).map(({ length }) => length));
  const pattern = Object.values(strings)[0]!;
  const empty = Array.from(pattern.padEnd(width, '-'), (sign) => (sign === '|' ? '|' : '-')).join('');
  return Array.from(labels, (label, index) => `${label}|${strings[index + 1] ?? empty}`).join('\n');
}

describe('what stands on the strings', () => {
  it('strings, frets of one and two digits, chords and bars, each with its pitch', () => {
    // Standard tuning is E4 B3 G3 D3 A2 E2 = 64 59 55 50 45 40 (common practice, no source).
    const tab = six({ 1: '-0---10--|-3-------|', 2: '-1---8---|---------|', 6: '-3-------|---------|' });
    expect(told(read(tab))).toEqual(['0:2 1/0=64, 0:2 2/1=60, 0:2 6/3=43, 2:2 1/10=74, 2:2 2/8=67', '0:4 1/3=67']);
  });

  it('hammer-ons, pull-offs, slides and bends sound as one reaches the other', () => {
    const tab = read(six({ 1: '-5h7-7p5-5/7-7\\5-|', 2: '-----------------|' }));
    expect(techniques(tab)).toEqual(['7 hammerOn', '5 pullOff', '7 slide', '5 slide']);
    const bent = read(six({ 2: '-7b9-----7b9r7---|' }));
    expect(techniques(bent)).toEqual(['7 bend', '7 bend']);
    expect(bent.xml).toContain('<bend><bend-alter>2</bend-alter></bend>');
    expect(bent.xml).toContain('<bend><bend-alter>-2</bend-alter><release/></bend>');
  });

  it('links go on over a bar line', () => {
    expect(techniques(read(six({ 1: '-----5h|7------|' })))).toEqual(['7 hammerOn']);
  });

  it('slides from nowhere and to nowhere, vibrato, taps and ghost notes', () => {
    const { xml, issues } = read(six({ 1: '-/7---5\\---7~~--t12--(5)-|' }));
    for (const sign of [
      '<scoop/>',
      '<falloff/>',
      '<wavy-line type="start"/>',
      '<tap/>',
      '<notehead parentheses="yes">',
    ])
      expect(xml).toContain(sign);
    expect(issues.map(({ code }) => code)).not.toContain('kept-as-words');
  });

  it('harmonics sound where the string rings, an octave and a fifth over the open string at fret 7', () => {
    // Partials of a string: the third sounds 19 semitones above it (common practice, no source).
    const tab = read(six({ 1: '-<12>---<7>---|' }));
    expect(told(tab)).toEqual(['0:2 1/12=76, 2:2 1/7=83']);
    expect(techniques(read(six({ 1: '-[12]---------|' })))).toEqual(['12 naturalHarmonic']);
  });

  it('an x is a dead note on its string', () => {
    expect(told(read(six({ 6: '-3---x---3---x---|' })))).toEqual([
      '0:1 6/3=43, 1:1 6/0=deadNote, 2:1 6/3=43, 3:1 6/0=deadNote',
    ]);
  });

  it('repeat signs with their number of times, also of a system without signs', () => {
    const signs = read(six({ 1: '|:-0-1-:|-3---|', 2: '|:-----:|-----|' }));
    expect(signs.score.bars.map(({ startsRepeat, repeatTimes }) => [startsRepeat, repeatTimes])).toEqual([
      [true, 2],
      [false, 0],
    ]);
    const times = read(six({ 1: '-0-1-|-3-2-|' }).replace('-3-2-|', '-3-2-| x3'));
    expect(times.score.bars.map(({ startsRepeat, repeatTimes }) => [startsRepeat, repeatTimes])).toEqual([
      [true, 0],
      [false, 3],
    ]);
  });

  it('signs that nobody understands become words and an issue with line and column', () => {
    const { xml, issues } = read(six({ 1: '-0-?!-3-|' }));
    expect(issues).toContainEqual(
      expect.objectContaining({ code: 'kept-as-words', where: { kind: 'text', lineNumber: 1, column: 6 } }),
    );
    expect(xml).toContain('<words>?!</words>');
  });
});

describe('the rhythm', () => {
  it('letters above tell values, also dotted, and rests where no note stands', () => {
    const tab = read(`  Q. E   Q   E E\n${six({ 1: '-0--1---3---5---|' })}`);
    expect(told(tab)).toEqual(['0:1.5 1/0=64, 1.5:0.5 1/1=65, 2:1 1/3=67, 3:0.5 1/5=69']);
    expect(codes(tab)).not.toContain('rhythm-guessed');
  });

  it('stems tell quarters, beams eighths, double beams sixteenths, a 3 a triplet', () => {
    const tab = read(`   |  |__|  |==|==|==|\n${six({ 1: '-0--1--3--5--3--1--0-|' })}`);
    expect(told(tab)[0]).toMatch(/^0:1 1\/0=64, 1:0\.5 1\/1=65, 1\.5:0\.5 1\/3=67, 2:0\.25 1\/5=69/);
    const triplet = read(`   |  |_3_|_3_|  |   |\n${six({ 1: '-0--1---3---5--7---8-|' })}`);
    expect(told(triplet)[0]).toBe(
      '0:1 1/0=64, 1:0.333 1/1=65, 1.333:0.333 1/3=67, 1.667:0.333 1/5=69, 2:1 1/7=71, 3:1 1/8=72',
    );
    expect(triplet.xml.match(/<tuplet type="st(art|op)"\/>/g)).toEqual([
      '<tuplet type="start"/>',
      '<tuplet type="stop"/>',
    ]);
  });

  it('a first bar that its letters do not fill is a pickup, and most bars tell the meter', () => {
    const tab = read(`  Q   Q Q Q   Q Q Q\n${six({ 1: '-0-|-1-3-5-|-1-3-5-|' })}`);
    expect(tab.score.bars.map(({ isImplicit, meter }) => [isImplicit, meter.beats, meter.beatUnit])).toEqual([
      [true, [3], 4],
      [false, [3], 4],
      [false, [3], 4],
    ]);
  });

  it.each([
    ['quarters', '-0---1---3---5---|', '0 1 2 3'],
    ['eighths', '-0-1-3-5-3-1-0-1-|', '0 0.5 1 1.5 2 2.5 3 3.5'],
    ['a dotted quarter', '-0-----1-3---5---|', '0 1.5 2 3'],
    ['triplets', '-0-1-3-5-3-1-0-1-3-5-3-1-|', '0 0.333 0.667 1 1.333 1.667 2 2.333 2.667 3 3.333 3.667'],
    ['sixteenths', '0135013501350135|', '0 0.25 0.5 0.75 1 1.25 1.5 1.75 2 2.25 2.5 2.75 3 3.25 3.5 3.75'],
  ])('without rhythm, columns are counted on the plainest grid: %s', (_, string, onsets) => {
    const spaced = string.replace('0135013501350135', Array.from('0135013501350135').join('-') + '-');
    const tab = read(six({ 1: spaced }));
    expect(
      told(tab)[0]!
        .split(', ')
        .map((note) => note.split(':')[0])
        .join(' '),
    ).toBe(onsets);
    expect(tab.issues.filter(({ code }) => code === 'rhythm-guessed')).toHaveLength(1);
  });

  it('a meter of the heading holds for guesses, and a later one from its system on', () => {
    const tab = read(`Time: 3/4\n\n${six({ 1: '-0---1---3---|' })}\n\n2/4\n${six({ 1: '-0---1---|' })}`);
    expect(told(tab)).toEqual(['0:1 1/0=64, 1:1 1/1=65, 2:1 1/3=67', '0:1 1/0=64, 1:1 1/1=65']);
    expect(codes(tab)).not.toContain('meter-assumed');
  });

  it('without bar lines, one is set every four beats, and notes over it are tied', () => {
    const tab = read(
      [
        'e--0-1-3-5-3-1-0---1-3-',
        'B---------------------',
        'G---------------------',
        'D---------------------',
        'A---------------------',
        'E---------------------',
      ].join('\n'),
    );
    expect(told(tab)).toEqual([
      '0:0.5 1/0=64, 0.5:0.5 1/1=65, 1:0.5 1/3=67, 1.5:0.5 1/5=69, 2:0.5 1/3=67, 2.5:0.5 1/1=65, 3:1 1/0=64',
      '0:0.5 1/1=65, 0.5:0.5 1/3=67',
    ]);
  });
});

describe('tunings', () => {
  // Letters to notes: the nearest to the usual string (common practice, from memory). MIDI note = open string + capo + fret.
  it.each([
    ['dropped D', 'eBGDAD', [64, 59, 55, 50, 45, 38]],
    ['DADGAD', 'dAGDAD', [62, 57, 55, 50, 45, 38]],
    ['open G', 'dBGDGD', [62, 59, 55, 50, 43, 38]],
  ])('%s by the letters at the left', (_, labels, tuning) => {
    const tab = read(six({ 1: '-2-------|', 6: '-----5---|' }, labels));
    expect(tab.score.parts[0]!.tuning).toEqual(tuning);
    expect(told(tab)).toEqual([`0:2 1/2=${tuning[0]! + 2}, 2:2 6/5=${tuning[5]! + 5}`]);
  });

  it.each([
    ['Tuning: D A D G A D', [62, 57, 55, 50, 45, 38]],
    ['Tuning: DADGBE', [64, 59, 55, 50, 45, 38]],
    ['Tuning: Eb Ab Db Gb Bb Eb', [63, 58, 54, 49, 44, 39]],
    ['tuned down a half step', [63, 58, 54, 49, 44, 39]],
    ['Tuning: open G', [62, 59, 55, 50, 43, 38]],
  ])('“%s” in the heading', (words, tuning) => {
    const tab = read(`${words}\n\n${six({ 1: '-2-------|' })}`);
    expect(tab.score.parts[0]!.tuning).toEqual(tuning);
  });

  it('a capo raises what sounds; four strings are a bass; what is asked for goes before', () => {
    expect(told(read(`Capo 3\n\n${six({ 1: '-2-------|' })}`))).toEqual(['0:4 1/2=69']);
    expect(told(read('G|-0---|\nD|-----|\nA|-----|\nE|-----|'))).toEqual(['0:4 1/0=43']);
    expect(told(read(six({ 6: '-0---|' }), { tuning: [62, 57, 55, 50, 45, 36] }))).toEqual(['0:4 6/0=36']);
  });

  it('letters from low to high are turned over and reported', () => {
    const tab = read(six({ 1: '-3---|' }, 'EADGBe'));
    expect(told(tab)).toEqual(['0:4 6/3=43']);
    expect(codes(tab)).toContain('value-repaired');
  });
});

describe('words around', () => {
  const song = [
    'Ashes in the Orchard',
    'by Ilse Harrow',
    'Capo 2',
    'Tempo: 92',
    '',
    '[Verse 1]',
    '  Am      G/B',
    'e|-0---0---|-3---3---|',
    'B|-1---1---|-0---0---|',
    'G|---------|---------|',
    'D|---------|---------|',
    'A|-0-------|-2-------|',
    'E|---------|---------|',
    '  Down by   the water',
    '  PM---',
    '',
    'h = hammer-on',
  ].join('\n');

  it('title, composer, tempo, section, chord symbols, lyrics and palm mute find their places', () => {
    const { score, xml } = read(song);
    expect([score.title, score.composer, score.tempos[0]?.quartersPerMinute]).toEqual([
      'Ashes in the Orchard',
      'Ilse Harrow',
      92,
    ]);
    expect(score.bars[0]!.rehearsalMark).toBe('Verse 1');
    expect(xml.match(/<kind text="[^"]*">[^<]*/g)).toEqual(['<kind text="m">minor', '<kind text="">major']);
    expect(xml).toContain('<bass><bass-step>B</bass-step></bass>');
    expect(xml.match(/<text>[^<]*/g)).toEqual(['<text>Down', '<text>by', '<text>the', '<text>water']);
    expect(xml.match(/<mute>palm<\/mute>/g)).toHaveLength(3);
  });

  it('no word is lost', () => {
    const { xml, issues } = read(song);
    expect(xml).toContain('<credit-words>h = hammer-on</credit-words>');
    expect(issues).toContainEqual(
      expect.objectContaining({ code: 'kept-as-words', where: { kind: 'text', lineNumber: 17, column: 1 } }),
    );
  });
});

describe('what is imperfect', () => {
  const plain = six({ 1: '-0---1---|-3---5---|', 2: '---------|-1-------|' });
  const wanted = told(read(plain));

  it.each([
    ['CRLF', plain.replaceAll('\n', '\r\n')],
    ['quoted lines', plain.replaceAll(/^/gm, '> ')],
    ['typographic dashes', plain.replaceAll('-', '–')],
    ['long dashes for two', plain.replaceAll('--', '—')],
    ['drawn bars', plain.replaceAll('|', '│')],
    ['a code fence', `\`\`\`\n${plain}\n\`\`\``],
    ['no letters', plain.replaceAll(/^\w/gm, '')],
    ['a shorter string', plain.replace('---------|-1-------|', '---------|-1----|')],
    ['a missing string', plain.replace(/^D.*\n/m, '')],
    [
      'wrapped within a bar',
      `${six({ 1: '-0---1---|-3---', 2: '---------|-1---' })}\n\n${['e5---|', 'B----|', 'G----|', 'D----|', 'A----|', 'E----|'].join('\n')}`,
    ],
  ])('%s make no difference to the notes', (_, text) => {
    expect(told(read(text)).slice(0, 2)).toEqual(wanted);
  });

  it('repairs are told with line and column', () => {
    const { issues } = read(plain.replace('---------|-1-------|', '---------|-1----|'));
    const place = { kind: 'text', lineNumber: 2, column: 19 };
    expect(issues).toContainEqual(expect.objectContaining({ code: 'value-repaired', where: place }));
  });

  it('a text without strings holds no music', () => {
    expect(textTabToMusicXml('Dear all,\nno tablature today.').issues).toMatchObject([
      { code: 'no-music', severity: 'error' },
    ]);
    expect(textTabToMusicXml('x'.repeat(600_000)).issues).toMatchObject([{ code: 'file-too-large' }]);
  });

  it('any text is read without failing, and every fret number of its bars is a note', () => {
    const signs = fc.string({
      unit: fc.constantFrom(...Array.from('-----------|0123579xhpb/\\~<>[]()rt:. =')),
      maxLength: 40,
    });
    fc.assert(
      fc.property(fc.array(signs, { minLength: 6, maxLength: 6 }), (strings) => {
        const text = strings.map((string, index) => `${'eBGDAE'.charAt(index)}|----${string}|`).join('\n');
        const { value, issues } = textTabToMusicXml(text);
        if (issues.some(({ severity }) => severity === 'error')) return;
        expect(read(text).score.bars.length).toBeGreaterThan(0);
        expect(value.name).toBe('score-partwise');
      }),
      { numRuns: 300, seed: 20261125 },
    );
  });
});
