import { describe, expect, it } from 'vitest';
import { measuresXml } from '../../../tests/support/measures.ts';
import { twoGuitars } from '../../../tests/support/two-guitars.ts';
import { partId } from '../../basis/ids.ts';
import type { Score } from '../../score/score.ts';
import { readNormalised, readMusicXml, type ReadScore, type ScoreSource } from './read-score.ts';
import type { SoundingChoice } from './sounding-choice.ts';

const note = (step: string, octave: number, string: number, fret: number): string =>
  `<note><pitch><step>${step}</step><octave>${octave}</octave></pitch><duration>48</duration><notations><technical><string>${string}</string><fret>${fret}</fret></technical></notations></note>`;
const capo = '<direction><direction-type><words>Capo 2</words></direction-type></direction>';
const clef = (octave: number): string =>
  `<clef><sign>G</sign><line>2</line><clef-octave-change>${octave}</clef-octave-change></clef>`;

function read(music: string, attributes: string, choice: Pick<ScoreSource, 'octave' | 'capo'> = {}): ReadScore {
  const xml = measuresXml([music], { name: 'Guitar', attributes });
  const source = { fileName: 'tiny.musicxml', firstNoteNumber: 1, firstBarNumber: 1, ...choice };
  const result = readMusicXml(new TextEncoder().encode(xml), source);
  if (!result.ok) throw new Error(result.refusal.map(({ detail }) => detail).join('; '));
  return result.value;
}

const sounding = (score: Score): number[] =>
  score.notes.map(({ sound }) => (sound.kind === 'pitched' ? sound.soundingMidi : 0));

// The open first string sounds E4, MIDI 64, and the second B3, MIDI 59: standard tuning, common practice.
const octaveHigh = note('E', 5, 1, 0) + note('B', 4, 2, 0);

describe('strings and frets against clef and transposition', () => {
  it.each([
    ['clef', clef(-1)],
    ['transposition', '<transpose><chromatic>0</chromatic></transpose>'],
  ])('win where they all agree on another octave than the %s, and that is told', (_, attributes) => {
    const { score, issues } = read(octaveHigh, attributes);
    expect(sounding(score)).toEqual([64, 59]);
    expect(issues.map(({ code, detail }) => [code, /believed/.test(detail)])).toContainEqual([
      'string-fret-disagree',
      true,
    ]);
  });

  it('give way where they do not agree among themselves', () => {
    const { score } = read(octaveHigh + note('E', 4, 1, 0) + note('C', 5, 3, 1), clef(-1));
    expect(sounding(score)[0]).toBe(76);
  });
});

describe('a person’s choice', () => {
  it('of the octave goes before all evidence and stays in the document', () => {
    const result = read(octaveHigh, clef(0), { octave: 0 });
    expect(sounding(result.score)).toEqual([76, 71]);
    expect(readNormalised(result.normalisedXml).value).toEqual(result.score);
  });

  it.each([
    ['shapes', [66, 61]],
    ['sounding', [64, 59]],
  ] as const)('of the capo: written as %s', (choice, wanted) => {
    const result = read(capo + octaveHigh, clef(0), { capo: choice });
    expect(sounding(result.score)).toEqual(wanted);
    expect(readNormalised(result.normalisedXml).value).toEqual(result.score);
  });

  it('replaces the one that the document carries', () => {
    const first = read(octaveHigh, clef(0), { octave: 0 });
    const source = { fileName: 'again', firstNoteNumber: 1, firstBarNumber: 1, octave: -2 };
    const second = readMusicXml(new TextEncoder().encode(first.normalisedXml), source);
    expect(second.ok && sounding(second.value.score)).toEqual([52, 47]);
    expect(second.ok && second.value.normalisedXml.match(/heddle-octave/g)).toHaveLength(1);
  });
});

describe('a person’s choice for single parts', () => {
  const written = new TextEncoder().encode(twoGuitars());
  const readAs = (bytes: Uint8Array, choice: Omit<ScoreSource, 'fileName' | 'firstNoteNumber' | 'firstBarNumber'>) => {
    const result = readMusicXml(bytes, { fileName: 'two', firstNoteNumber: 1, firstBarNumber: 1, ...choice });
    if (!result.ok) throw new Error('the test’s own score cannot be read');
    return result.value;
  };
  const of = (part: string, choice: Partial<SoundingChoice>) =>
    new Map([[partId(part), { octave: null, capo: null, ...choice }]]);

  /** The pitch of each part's one note. */
  const ofEach = ({ score }: ReadScore): number[] =>
    score.parts.flatMap(({ id }) =>
      score.notes.flatMap(({ sound, voices }) =>
        voices[0]?.part === id && sound.kind === 'pitched' ? [sound.soundingMidi] : [],
      ),
    );

  it('leaves the others to their evidence', () => {
    expect(ofEach(readAs(written, {}))).toEqual([76, 66]);
    const chosen = readAs(written, { ofParts: of('P2', { octave: 0, capo: 'sounding' }) });
    expect(ofEach(chosen)).toEqual([76, 76]);
    expect(chosen.sounding).toEqual([
      { part: 'P1', octave: 0, octaveBy: 'clef', capo: null },
      {
        ...{ part: 'P2', octave: 0, octaveBy: 'person', capo: { are: 'sounding', by: 'person' } },
        byFile: { octave: -1, octaveBy: 'assumption', capo: { are: 'shapes', by: 'assumption' } },
      },
    ]);
    expect(readNormalised(chosen.normalisedXml).value).toEqual(chosen.score);
  });

  it('goes before the choice for all, which goes before what a document carries for single parts', () => {
    const both = readAs(written, { octave: -1, ofParts: of('P1', { octave: -2 }) });
    expect(ofEach(both)).toEqual([52, 66]);
    const again = readAs(new TextEncoder().encode(both.normalisedXml), { octave: 0 });
    expect(ofEach(again)).toEqual([76, 78]);
    expect(again.normalisedXml.match(/heddle-octave/g)).toHaveLength(1);
  });

  it('holds for the tablature part that copies the part', () => {
    const tab =
      '<attributes><staff-details><staff-lines>6</staff-lines></staff-details><clef><sign>TAB</sign></clef></attributes>';
    const bar = (music: string): string =>
      `<measure number="1"><attributes><divisions>48</divisions></attributes>${music}</measure>`;
    const xml = `<?xml version="1.0"?><score-partwise><part-list><score-part id="P1"><part-name>Guitar</part-name></score-part><score-part id="P2"><part-name>Tab</part-name></score-part></part-list><part id="P1">${bar(octaveHigh)}</part><part id="P2">${bar(tab + octaveHigh)}</part></score-partwise>`;
    const { score } = readAs(new TextEncoder().encode(xml), { ofParts: of('P1', { octave: 0 }) });
    expect(score.parts.map(({ pairedWith, soundingShift }) => [pairedWith, soundingShift])).toEqual([
      [null, 0],
      ['P1', 0],
    ]);
  });
});

describe('what was believed is told', () => {
  const bare = '<note><pitch><step>E</step><octave>5</octave></pitch><duration>48</duration></note>';
  it.each([
    ['a clef', clef(-1), bare, 0, 'clef', null],
    [
      'a transposition',
      '<transpose><chromatic>0</chromatic><octave-change>-1</octave-change></transpose>',
      bare,
      -1,
      'transposition',
      null,
    ],
    ['strings and frets', '', octaveHigh, -1, 'frets', null],
    ['nothing', '', bare, -1, 'assumption', null],
    ['frets with a capo', '', capo + octaveHigh, -1, 'frets', { are: 'shapes', by: 'frets' }],
    ['nothing, with a capo', '', capo + bare, -1, 'assumption', { are: 'shapes', by: 'assumption' }],
  ] as const)('%s', (_, attributes, music, octave, octaveBy, capoRead) => {
    const [found] = read(music, attributes).sounding;
    expect(found).toEqual({ part: 'P1', octave, octaveBy, capo: capoRead });
  });

  it('a person’s choice goes before it', () => {
    const { sounding: found } = read(capo + octaveHigh, clef(0), { octave: -2, capo: 'sounding' });
    expect(found).toMatchObject([{ octave: -2, octaveBy: 'person', capo: { are: 'sounding', by: 'person' } }]);
    expect(found[0]?.byFile).toEqual({ octave: -1, octaveBy: 'frets', capo: { are: 'shapes', by: 'frets' } });
  });
});
