import { isZip } from './container/zip-directory.ts';
import { decodeText } from './xml/decode-text.ts';

/** The formats of scores that Heddle reads. */
export type FileFormat = 'musicxml' | 'midi' | 'abc' | 'textTab';

/** What a file turned out to be, with its text where it is one. */
export type Sniffed =
  | { readonly format: 'musicxml' | 'midi' }
  | { readonly format: 'abc' | 'textTab'; readonly text: string; readonly isUtf8: boolean };

/** `MThd`. */
const midiHeader = [0x4d, 0x54, 0x68, 0x64];

/** Envelopes that some systems put around a MIDI file are no longer than this. **Source** RIFF RMID 20 bytes (RP-029), MacBinary 128. */
const longestEnvelope = 128;

/** A MIDI file, also within an envelope. **Source** Standard MIDI Files 1.0, header chunk. */
function isMidi(bytes: Uint8Array): boolean {
  const places = Array.from({ length: longestEnvelope + 1 }, (_, at) => at);
  return places.some((at) => midiHeader.every((byte, index) => bytes[at + index] === byte));
}

/** The text of a file that is no XML: UTF-8 or UTF-16 if it can be, else Windows-1252, in which any bytes are text; null where bytes of zero say that it is none. */
function plainTextOf(bytes: Uint8Array): { readonly text: string; readonly isUtf8: boolean } | null {
  const decoded = decodeText(bytes);
  if (decoded.ok) return decoded.value.includes('\0') ? null : { text: decoded.value, isUtf8: true };
  return bytes.includes(0) ? null : { text: new TextDecoder('windows-1252').decode(bytes), isUtf8: false };
}

/** **Source** ABC 2.1, sections 2.2 and 4: a tune begins with `X:` and its header ends with `K:`; a file may begin with `%abc`. */
function isAbc(text: string, fileName: string): boolean {
  if (/^\s*%abc\b/.test(text)) return true;
  const hasKey = /^\s{0,3}K:/m.test(text);
  return hasKey && (/^\s{0,3}X:\s*\d/m.test(text) || /\.abc$/i.test(fileName));
}

/** A line of a string: mostly dashes, with fret numbers and signs between them. */
const stringLine = /^[^-\n]{0,20}-[-\d|hpxXbrstv~/\\()<>*:.=^\s]*$/;

/** Whether three lines of strings stand under each other. **Source** common practice, no source. */
function isTextTab(text: string): boolean {
  let inRow = 0;
  for (const line of text.split(/\r\n?|\n/)) {
    inRow = (line.match(/-/g)?.length ?? 0) >= 4 && stringLine.test(line.trim()) ? inRow + 1 : 0;
    if (inRow === 3) return true;
  }
  return false;
}

const whiteSpace = [0x20, 0x09, 0x0a, 0x0d];

/** Whether the first byte that is no white space opens a tag; spares decoding a large document twice. */
function opensTag(bytes: Uint8Array): boolean {
  const hasMark = bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf;
  let at = hasMark ? 3 : 0;
  while (whiteSpace.includes(bytes[at] ?? -1)) at += 1;
  return bytes[at] === 0x3c;
}

/** What a file is, by its bytes; by its name only where a text leaves it open. Null where it is none of the formats. */
export function sniffFormat(bytes: Uint8Array, fileName: string): Sniffed | null {
  if (isZip(bytes) || bytes.byteLength === 0 || opensTag(bytes)) return { format: 'musicxml' };
  if (isMidi(bytes)) return { format: 'midi' };
  const plain = plainTextOf(bytes);
  if (plain === null) return null;
  if (/^\s*</.test(plain.text)) return { format: 'musicxml' };
  if (isAbc(plain.text, fileName)) return { format: 'abc', ...plain };
  return isTextTab(plain.text) ? { format: 'textTab', ...plain } : null;
}
