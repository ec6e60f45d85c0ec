import { describe, expect, it } from 'vitest';
import { lineId } from '../basis/ids.ts';
import { parseXml } from '../formats/xml/parse-xml.ts';
import { serialiseXml } from '../formats/xml/serialise-xml.ts';
import { childText, elementsOf, isElement, type XmlElement, type XmlNode } from '../formats/xml/tree.ts';
import { readMusicXml } from '../formats/musicxml/read-score.ts';
import { demoPieces } from '../../seed/demo-pieces.ts';
import { musicXmlFaults } from '../../tests/support/musicxml-check.ts';
import { splitByVoice } from '../../tests/support/split-by-voice.ts';
import { recolouredOriginal } from './recoloured-original.ts';

const read = readMusicXml(new TextEncoder().encode(demoPieces()[0]!.musicXml), {
  fileName: 'demo',
  firstNoteNumber: 1,
  firstBarNumber: 1,
});
if (!read.ok) throw new Error('the demo cannot be read');
const { score, normalisedXml } = read.value;
const split = splitByVoice(score);
const dyes = ['#7d2434', '#24527d', '#3f6b3a', '#7d6124'];
const colours = new Map(split.lines.map(({ id }, index) => [id, dyes[index % dyes.length]!]));
const xml = recolouredOriginal(normalisedXml, score, split, colours);

function rootOf(text: string): XmlElement {
  const document = parseXml(text);
  if (!document.ok) throw new Error(document.refusal.detail);
  return document.value.root;
}

const notesIn = (element: XmlElement): XmlElement[] =>
  element.name === 'note' ? [element] : elementsOf(element).flatMap(notesIn);

/** The tree without what the lines may change. */
function bare(node: XmlNode): XmlNode {
  if (!isElement(node)) return node;
  const attributes = Object.fromEntries(Object.entries(node.attributes).filter(([name]) => name !== 'color'));
  const children = node.children.filter((child) => node.name !== 'note' || !isElement(child, 'voice')).map(bare);
  return { ...node, attributes: node.name === 'note' ? attributes : node.attributes, children };
}

const bareText = (text: string): string =>
  serialiseXml({ doctype: null, before: [], after: [], root: bare(rootOf(text)) as XmlElement });

describe('[R45] the original in the colours of its lines', () => {
  it('gives each head the colour and the number of its line', () => {
    const lineOf = new Map(
      score.notes.flatMap(({ id, heads }) => heads.map((head) => [head as string, split.marks.get(id)!.lines[0]!])),
    );
    const notes = notesIn(rootOf(xml)).filter(({ attributes }) => lineOf.has(attributes['id'] ?? ''));
    expect(notes.length).toBe(lineOf.size);
    for (const note of notes) {
      const line = lineOf.get(note.attributes['id']!)!;
      expect(note.attributes['color']).toBe(colours.get(line)!.toUpperCase());
      expect(childText(note, 'voice')).toBe(String(split.lines.findIndex(({ id }) => id === line) + 1));
    }
  });

  it('is valid as the document was', () => {
    expect(musicXmlFaults(normalisedXml)).toEqual([]);
    expect(musicXmlFaults(xml)).toEqual([]);
  });

  it('changes nothing else', () => {
    expect(bareText(xml)).toBe(bareText(normalisedXml));
  });

  it('sounds the same when it is read', () => {
    const again = readMusicXml(new TextEncoder().encode(xml), { fileName: '', firstNoteNumber: 1, firstBarNumber: 1 });
    if (!again.ok) throw new Error('it cannot be read');
    const sounds = (notes: typeof score.notes): unknown =>
      notes.map(({ onsetTicks, sound }) => [onsetTicks, sound.kind === 'pitched' ? sound.soundingMidi : sound.hit]);
    expect(sounds(again.value.score.notes)).toEqual(sounds(score.notes));
  });

  it('leaves notes on no line as they are', () => {
    const nobody = { ...split, marks: new Map() };
    expect(recolouredOriginal(normalisedXml, score, nobody, new Map([[lineId('none'), '#000000']]))).toBe(
      normalisedXml,
    );
  });
});
