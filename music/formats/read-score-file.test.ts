import { describe, expect, it } from 'vitest';
import { tinyScore } from '../../tests/support/tiny-musicxml.ts';
import type { Score } from '../score/score.ts';
import { packScore } from './container/pack-score.ts';
import { writeMidi } from './midi/write-midi.ts';
import { readNormalised } from './musicxml/read-score.ts';
import { readScoreFile, type FileSource, type ReadFile } from './read-score-file.ts';

const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);
const latin1 = (text: string): Uint8Array => Uint8Array.from(text, (sign) => sign.charCodeAt(0));
const source = { fileName: 'no name tells', firstNoteNumber: 1, firstBarNumber: 1 };

function readFile(bytes: Uint8Array, more: Partial<FileSource> = {}): ReadFile {
  const read = readScoreFile(bytes, { ...source, ...more });
  if (!read.ok) throw new Error(JSON.stringify(read.refusal));
  return read.value;
}

const pitches = ({ notes }: Score): (number | null)[] =>
  notes.map(({ sound }) => (sound.kind === 'pitched' ? sound.soundingMidi : null));

const xml = tinyScore(['C4:q D4:q E4:h | F4:w']);
const tab = `Café

e|-0-1-3---|-0-------|
B|---------|---------|
G|---------|---------|
D|---------|---------|
A|---------|-0-------|
E|---------|---------|
`;
const abc = `X:3
T:The Stile
M:3/4
L:1/4
K:G
G A B|d2 z|]

X:7
T:The Gate
M:2/4
L:1/4
K:C
c e|g2|]
`;
/** Eight pairs of notes two thirds and one third of a quarter long. */
const shuffled = writeMidi({
  title: 'Pairs',
  ticksPerQuarter: 12,
  lengthTicks: 96,
  tempos: [{ ticks: 0, value: 100 }],
  meters: [{ ticks: 0, value: { beats: 4, beatUnit: 4 } }],
  keys: [],
  markers: [],
  tracks: [
    {
      name: 'Guitar',
      program: 25,
      hits: [],
      lyrics: [],
      notes: Array.from({ length: 16 }, (_, index) => ({
        startTicks: 12 * (index >> 1) + (index % 2) * 8,
        lengthTicks: index % 2 === 0 ? 8 : 4,
        midi: 60 + index,
        velocity: 80,
      })),
    },
  ],
});

describe('a file is told by its bytes', () => {
  it.each([
    ['MusicXML', utf8(xml), 'musicxml'],
    ['MusicXML after white space', utf8(`\n ${xml.replace('<?xml version="1.0"?>', '')}`), 'musicxml'],
    ['.mxl', packScore(xml), 'musicxml'],
    ['MIDI', shuffled, 'midi'],
    ['MIDI in an envelope', Uint8Array.from([...latin1('RIFF\0\0\0\0RMIDdata\0\0\0\0'), ...shuffled]), 'midi'],
    ['ABC', utf8(abc), 'abc'],
    ['ABC that begins as its standard asks', utf8(`%abc-2.1\n${abc}`), 'abc'],
    ['text tablature', utf8(tab), 'textTab'],
    ['text tablature with a byte order mark', utf8(`\uFEFF${tab}`), 'textTab'],
    ['text tablature with the line ends of other systems', utf8(tab.replaceAll('\n', '\r\n')), 'textTab'],
  ])('%s', (_, bytes, format) => {
    expect(readFile(bytes).format).toBe(format);
  });

  it.each([
    ['words', utf8('This is not music.')],
    ['a list with dashes', utf8('- one\n- two\n- three\n- four\n')],
    ['zeros', new Uint8Array(100)],
    ['random bytes', new Uint8Array(1000).map((__, index) => (index * 7919 + 131) % 256)],
    ['a picture', Uint8Array.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 13])],
  ])('%s are none of them, and a sentence says what would be', (_, bytes) => {
    const read = readScoreFile(bytes, source);
    expect(read).toMatchObject({ ok: false, refusal: [{ code: 'file-unsupported', severity: 'error' }] });
    expect(JSON.stringify(read)).toContain('MusicXML, .mxl, MIDI, ABC or a text tablature');
  });
});

describe('every format goes the road of MusicXML', () => {
  it.each([
    ['MIDI', shuffled],
    ['ABC', utf8(abc)],
    ['text tablature', utf8(tab)],
  ])('%s becomes a document whose score is the one that was read', (_, bytes) => {
    const read = readFile(bytes, { firstNoteNumber: 50, firstBarNumber: 7 });
    const again = readNormalised(read.normalisedXml);
    expect(again.value).toEqual(read.score);
    expect(read.score.notes[0]?.id).toBe('n50');
    expect(read.score.bars[0]?.id).toBe('b7');
    expect(read.nextBarNumber).toBe(7 + read.score.bars.length);
    const [firstStep, reader] = [read.issues.length - again.issues.length, again.issues];
    expect(firstStep).toBeGreaterThanOrEqual(0);
    expect(read.issues.slice(firstStep)).toEqual(reader);
  });

  it('reads a text that is not UTF-8, and says so', () => {
    const { score, issues } = readFile(latin1(tab));
    expect(score.title).toBe('Café');
    expect(issues[0]).toMatchObject({
      code: 'value-repaired',
      detail: 'The text is not UTF-8; it was read as Windows-1252.',
    });
    expect(pitches(score)).toEqual(pitches(readFile(utf8(tab)).score));
  });

  it('reads the tune of an ABC file that is asked for, and tells which there are', () => {
    const tunes = [
      { number: 3, title: 'The Stile' },
      { number: 7, title: 'The Gate' },
    ];
    const [first, second] = [readFile(utf8(abc)), readFile(utf8(abc), { tune: 7 })];
    expect([first.score.title, second.score.title]).toEqual(['The Stile', 'The Gate']);
    expect([first.choices.tunes, second.choices.tunes]).toEqual([tunes, tunes]);
    expect(pitches(second.score)).toEqual([72, 76, 79]);
    expect(readScoreFile(utf8(abc), { ...source, tune: 9 })).toMatchObject({
      ok: false,
      refusal: [{ code: 'no-music' }],
    });
  });

  it('hands the tuning on to the text tablature', () => {
    const lower = readFile(utf8(tab.replace(/^[eBGDAE]\|/gm, '|')), { tuning: [62, 57, 53, 48, 43, 38] });
    expect(pitches(lower.score)[0]).toBe(62);
  });

  it('tells the grid of a MIDI file and takes another', () => {
    const triplets = readFile(shuffled, { grid: 'triplet' });
    const straight = readFile(shuffled, { grid: 'straight' });
    expect(triplets.choices.grid?.map(({ kind }) => kind)).toEqual(['triplet']);
    expect(straight.choices.grid?.map(({ kind }) => kind)).toEqual(['straight']);
    const second = ({ score }: ReadFile): number => score.notes[1]!.onsetTicks / score.ticksPerQuarter;
    expect(second(triplets)).toBeCloseTo(2 / 3, 9);
    expect(second(straight)).not.toBeCloseTo(2 / 3, 2);
  });

  it('refuses what the first step refuses, with its words', () => {
    const silent = writeMidi({
      title: '',
      ticksPerQuarter: 12,
      lengthTicks: 48,
      tempos: [],
      meters: [],
      keys: [],
      markers: [],
      tracks: [],
    });
    expect(readScoreFile(silent, source)).toMatchObject({
      ok: false,
      refusal: [{ code: 'no-music', severity: 'error' }],
    });
  });
});

it('ignores a name that says otherwise', () => {
  expect(readFile(utf8(xml), { fileName: 'song.mid' }).format).toBe('musicxml');
});
