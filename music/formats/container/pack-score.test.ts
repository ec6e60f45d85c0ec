import { unzipSync, strFromU8 } from 'fflate';
import { expect, it } from 'vitest';
import { tinyScore } from '../../../tests/support/tiny-musicxml.ts';
import { readMusicXml } from '../musicxml/read-score.ts';
import { packScore } from './pack-score.ts';

const xml = tinyScore(['C4:q D4:q E4:h | F4:w']);
const source = { fileName: 'tiny', firstNoteNumber: 1, firstBarNumber: 1 };

it('packs a score that is read as the document itself is', () => {
  const [packed, plain] = [packScore(xml), new TextEncoder().encode(xml)].map((bytes) => readMusicXml(bytes, source));
  expect(plain?.ok).toBe(true);
  expect(packed).toEqual(plain);
});

// MusicXML 4.0, tutorial "Compressed .MXL Files": mimetype is the first file and is stored; the media type is its text.
it('begins with the media type, not deflated, so that it can be told from the first bytes', () => {
  const bytes = packScore(xml);
  expect(strFromU8(bytes.subarray(30, 38))).toBe('mimetype');
  expect(strFromU8(bytes.subarray(38, 38 + 34))).toBe('application/vnd.recordare.musicxml');
  expect(Object.keys(unzipSync(bytes))).toEqual(['mimetype', 'META-INF/container.xml', 'score.musicxml']);
});

it('packs the same score to the same bytes', () => {
  expect(packScore(xml)).toEqual(packScore(xml));
});
