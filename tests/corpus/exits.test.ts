import { describe, expect, it } from 'vitest';
import { openScoreFile } from '../../music/formats/musicxml/score-document.ts';
import { packScore, readScoreFile, type ReadFile } from '../../music/index.ts';
import { demoPieces } from '../../seed/demo-pieces.ts';
import { registryFile, registryFiles } from '../../measure/registry-scores.ts';
import { allExits, type ExitDocument } from '../support/all-exits.ts';
import { heardInParts, heardOnStaves } from '../support/heard.ts';
import { musicXmlFaults } from '../support/musicxml-check.ts';
import { secondReading } from '../support/second-reader.ts';
import { splitByVoice } from '../support/split-by-voice.ts';

const utf8 = new TextEncoder();

function readBytes(bytes: Uint8Array): ReadFile {
  const read = readScoreFile(bytes, { fileName: 'out', firstNoteNumber: 1, firstBarNumber: 1 });
  if (!read.ok) throw new Error(JSON.stringify(read.refusal));
  return read.value;
}

const songs: readonly (readonly [string, () => ReadFile])[] = [
  ...registryFiles().map((path) => [path, () => registryFile(path)] as const),
  ...demoPieces().map(({ title, musicXml }) => [title, () => readBytes(utf8.encode(musicXml))] as const),
];

const exitsOf = (read: ReadFile): readonly ExitDocument[] => allExits({ ...read, split: splitByVoice(read.score) });

/** Something about each exit, under its name. */
const perExit = <Fact>(exits: readonly ExitDocument[], factOf: (exit: ExitDocument) => Fact): [string, Fact][] =>
  exits.map((exit) => [exit.name, factOf(exit)]);

const none = (exits: readonly ExitDocument[]): [string, string[]][] => perExit(exits, () => []);

describe.each(songs)('%s', (_name, read) => {
  const song = read();
  const exits = exitsOf(song);

  it('leaves by every exit as valid MusicXML 4.0, and is valid as it is kept', () => {
    expect(musicXmlFaults(song.normalisedXml)).toEqual([]);
    expect(perExit(exits, ({ xml }) => musicXmlFaults(xml))).toEqual(none(exits));
  });

  it('is the same packed', () => {
    const [first] = exits;
    const opened = openScoreFile(packScore(first!.xml));
    const plain = openScoreFile(utf8.encode(first!.xml));
    expect(opened).toEqual(plain);
  });

  it('is read back as it was written out', () => {
    const written = exits.filter((exit) => exit.written !== null);
    const back = perExit(written, ({ xml }) => heardInParts(readBytes(utf8.encode(xml)).score));
    expect(back).toEqual(perExit(written, (exit) => heardOnStaves(exit.written!)));
  });
});

/** verovio 6.3.0 takes a pull-off on a tablature for an articulation, which it then does not place. */
const ownComplaint = /^\[Error\] Adding 'artic' to a 'tabGrp'\n/gm;

const countOf = (xml: string, pattern: RegExp): number => [...xml.matchAll(pattern)].length;

describe.each(['mock/mock1.xml', 'v3/Binchois.xml', 'v3/BrookeWestSample.xml', 'v3/MozartPianoSonata.xml'])(
  '%s in verovio',
  (path) => {
    it('has as many heads and rests as each exit wrote, and is opened without complaint', async () => {
      const exits = exitsOf(registryFile(path)).filter(({ written }) => written !== null);
      const found: [string, unknown][] = [];
      for (const { name, xml } of exits) {
        const { noteIds, graceCount, restCount, log } = await secondReading(xml);
        found.push([name, [noteIds.size + graceCount, restCount, log.replace(ownComplaint, '')]]);
      }
      expect(found).toEqual(perExit(exits, ({ xml }) => [countOf(xml, /<note id=/g), countOf(xml, /<rest\b/g), '']));
    });
  },
);
