import { describe, expect, it } from 'vitest';
import { measuresXml } from '../../../tests/support/measures.ts';
import { readNormalised, readMusicXml, type ReadScore } from '../musicxml/read-score.ts';

function read(bytes: Uint8Array): ReadScore {
  const result = readMusicXml(bytes, { fileName: 'tiny.musicxml', firstNoteNumber: 1, firstBarNumber: 1 });
  if (!result.ok) throw new Error(result.refusal.map(({ detail }) => detail).join('; '));
  return result.value;
}

const note = '<note><pitch><step>C</step><octave>4</octave></pitch><duration>96</duration></note>';
const titled = (title: string): string =>
  measuresXml([note]).replace('<part-list>', `<movement-title>${title}</movement-title><part-list>`);
const encoded = (text: string): Uint8Array => new TextEncoder().encode(text);
const oneByteALetter = (text: string): Uint8Array => Uint8Array.from(text, (letter) => letter.charCodeAt(0));
const codes = ({ issues }: ReadScore): string[] => issues.map(({ code }) => code);
const declared = (encoding: string, title: string): string =>
  titled(title).replace('<?xml version="1.0"?>', `<?xml version="1.0" encoding="${encoding}"?>`);

describe('texts that are nearly XML', () => {
  it.each([
    ['blank lines before the declaration', encoded(`\n \n${titled('Song')}`), 'Song'],
    ['characters by their HTML names', encoded(titled('Ni&ntilde;o &ndash; &Eacute;t&eacute;')), 'Niño – Été'],
    ['zeros after the end', encoded(`${titled('Song')}\n\0\0`), 'Song'],
    ['a bare ampersand', encoded(titled('Salt & Pepper')), 'Salt & Pepper'],
    ['another encoding than the declared one', oneByteALetter(declared('UTF-8', 'Été')), 'Été'],
    ['UTF-16 declared, bytes of UTF-8', encoded(declared('UTF-16', 'Été')), 'Été'],
  ])('are read and told: %s', (_, bytes, title) => {
    const result = read(bytes);
    expect(result.score.title).toBe(title);
    expect(codes(result)).toEqual(['value-repaired']);
  });

  it.each(['Latin1', 'latin-1', 'ISO8859-1', 'windows-1252', 'iso-8859-15'])('in %s are read', (encoding) => {
    const result = read(oneByteALetter(declared(encoding, 'Été')));
    expect(result.score.title).toBe('Été');
    expect(codes(result)).toEqual([]);
  });

  it('keep entities that XML knows, CDATA and comments as they are', () => {
    const result = read(encoded(titled('A &amp; B<!-- & &eacute; --> <![CDATA[& &eacute;]]>')));
    expect(result.score.title).toBe('A & B & &eacute;');
    expect(codes(result)).toEqual([]);
  });
});

describe('names with a namespace prefix (Namespaces in XML 1.0)', () => {
  it('are read without it, and so is the document', () => {
    const prefixed = measuresXml([note])
      .replace(/<(\/?)([a-z])/g, '<$1m:$2')
      .replace('<m:score-partwise', '<m:score-partwise xmlns:m="http://example.org/music"');
    const result = read(encoded(prefixed));
    expect(result.score.notes).toHaveLength(1);
    expect(codes(result)).toEqual(['value-repaired']);
    expect(readNormalised(result.normalisedXml).value).toEqual(result.score);
  });
});
