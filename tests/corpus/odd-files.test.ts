import { writeMidi, type MidiEvent } from 'midi-file';
import { describe, expect, it } from 'vitest';
import { readScoreFile, type ReadFile } from '../../music/index.ts';
import { allExits } from '../support/all-exits.ts';
import { heardInParts, heardOnStaves } from '../support/heard.ts';
import { musicXmlFaults } from '../support/musicxml-check.ts';
import { splitByVoice } from '../support/split-by-voice.ts';

const utf8 = new TextEncoder();

function readBytes(bytes: Uint8Array): ReadFile {
  const read = readScoreFile(bytes, { fileName: 'odd', firstNoteNumber: 1, firstBarNumber: 1 });
  if (!read.ok) throw new Error(JSON.stringify(read.refusal));
  return read.value;
}

const midi = (...events: readonly MidiEvent[]): Uint8Array =>
  Uint8Array.from(
    writeMidi({
      header: { format: 1, numTracks: 1, ticksPerBeat: 480 },
      tracks: [[...events, { deltaTime: 0, type: 'endOfTrack', meta: true }]],
    }),
  );

const struck = (noteNumber: number, ticks = 480, channel = 0): readonly MidiEvent[] => [
  { deltaTime: 0, type: 'noteOn', channel, noteNumber, velocity: 80 },
  { deltaTime: ticks, type: 'noteOff', channel, noteNumber, velocity: 0 },
];

const text = (type: 'trackName' | 'lyrics' | 'marker', words: string): MidiEvent => ({
  ...{ deltaTime: 0, type, meta: true, text: words },
});

const tempo = (microsecondsPerBeat: number): MidiEvent => ({
  ...{ deltaTime: 0, type: 'setTempo', meta: true, microsecondsPerBeat },
});

const document = (before: string, within = ''): Uint8Array =>
  utf8.encode(`<score-partwise version="3.1"><part-list><score-part id="P1"><part-name>Guitar</part-name></score-part></part-list>
<part id="P1"><measure number="1"><attributes><divisions>2</divisions><time><beats>4</beats><beat-type>4</beat-type></time>
<clef><sign>G</sign><line>2</line></clef></attributes>${before}<note><pitch><step>C</step><octave>4</octave></pitch>
<duration>8</duration><type>whole</type>${within}</note></measure><measure number="2"><note><rest measure="yes"/>
<duration>8</duration></note></measure></part></score-partwise>`);

const files: readonly (readonly [string, () => Uint8Array])[] = [
  [
    'keys that switch sounds, below the octaves that can be named',
    () => midi(...struck(0), ...struck(5), ...struck(64)),
  ],
  [
    'signs of control in names, words and markers',
    () =>
      midi(
        ...[text('trackName', 'Gui\u0001tar\u001b & <b>'), text('lyrics', 'la\u0002'), text('marker', 'A\u0003')],
        ...[...struck(60), ...struck(61, 320), ...struck(62, 160)],
      ),
  ],
  ['the fastest and the slowest tempo', () => midi(tempo(1), ...struck(60), tempo(16_777_215), ...struck(61))],
  ['a drum kit', () => midi(...struck(36, 480, 9), ...struck(38, 480, 9))],
  [
    'ABC with much in it',
    () =>
      utf8.encode(`X:1
T:Te\u0001st
C:Me & You
Q:"Fast" 1/4=120.5
M:6/8
L:1/8
K:G exp _b ^f
|:"Am7"!trill!A2 {/Bc}d (3efg [CEG]2|1,3 A,,,,,,,,3 c'''''''3 :|2 !D.C.!A6 |]
w: la- la * _ la
V:2 clef=bass transpose=-12
z6|Z|x6|
`),
  ],
  [
    'ABC in free time and in a meter of sums',
    () =>
      utf8.encode('X:1\nT:Free\nM:none\nL:1/4\nK:C\n!<(!C D E !<)! F|[K:Dmix][M:2+3/8] !fermata!G/2>A/2 B// c//|\n'),
  ],
  [
    'ABC with more slurs than have numbers, and layers',
    () =>
      utf8.encode(`X:1\nM:4/4\nL:1/4\nK:Hp\n"^over""_under" c d e f|${'('.repeat(18)}c d${')'.repeat(18)} e f &c4|\n`),
  ],
  [
    'a text tablature',
    () =>
      utf8.encode(`My Song
by Me\u0001
Capo 2

   Am7      C/G
e|--0--3h5--5/7--x--|--12~--<12>--[7]--|
B|--1--1p0-------x--|--------------(3)-|
G|--0------2b4--x--|--2b4r2------------|
D|--2--------------|-------------------|
A|--0--------------|--t12--------------|
E|-----------------|-------------------|
`),
  ],
];

describe.each(files)('%s', (_name, bytes) => {
  const song = readBytes(bytes());
  const exits = allExits({ ...song, split: splitByVoice(song.score) });

  it('is valid MusicXML 4.0 as it is kept and at every exit', () => {
    expect(song.score.notes.length).toBeGreaterThan(0);
    expect(musicXmlFaults(song.normalisedXml)).toEqual([]);
    expect(exits.flatMap(({ name, xml }) => musicXmlFaults(xml).map((fault) => `${name}: ${fault}`))).toEqual([]);
  });

  it('is read back as it was written out', () => {
    for (const { xml, written } of exits)
      if (written !== null) expect(heardInParts(readBytes(utf8.encode(xml)).score)).toEqual(heardOnStaves(written));
  });
});

describe('a document with values that the format does not have', () => {
  const swing = '<sound><swing><first>1.5</first><second>1</second></swing></sound>';
  const chord = '<harmony><root><root-step>C</root-step></root><kind text="m7b5">min7b5</kind></harmony>';
  const verse = '<lyric number="a b"><text>la</text></lyric>';
  const song = readBytes(document(chord + swing, verse));
  const written = allExits({ ...song, split: splitByVoice(song.score) }).filter((exit) => exit.written !== null);

  it('is written out with those that it has', () => {
    expect(written.flatMap(({ xml }) => musicXmlFaults(xml))).toEqual([]);
    expect(written[0]!.xml).toContain('<first>3</first><second>2</second>');
    expect(written[0]!.xml).toContain('<kind text="m7b5">other</kind>');
    expect(written[0]!.xml).toContain('<lyric name="a b">');
  });
});

describe('a hairpin with an id that an excerpt closes', () => {
  it('has it once', () => {
    const wedge = '<direction><direction-type><wedge id="w1" type="crescendo"/></direction-type></direction>';
    const song = readBytes(document(wedge));
    const exits = allExits({ ...song, split: splitByVoice(song.score) });
    expect(exits.flatMap(({ xml }) => musicXmlFaults(xml))).toEqual([]);
  });
});

describe('a song without lines', () => {
  it('is written out as rests', () => {
    const song = readBytes(document(''));
    const split = { ...splitByVoice(song.score), lines: [], marks: new Map() };
    const [, lines] = allExits({ ...song, split });
    expect(musicXmlFaults(lines!.xml)).toEqual([]);
    expect(readBytes(utf8.encode(lines!.xml)).score.bars.length).toBe(2);
  });
});
