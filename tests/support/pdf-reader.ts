import { inflateSync } from 'node:zlib';

/** One page of a PDF as its file says it. **Units** points. */
export interface ReadPage {
  readonly mediaBox: readonly number[];
  readonly content: string;
}

/** A PDF as far as the tests look into it. */
export interface ReadPdf {
  readonly pages: readonly ReadPage[];
  readonly title: string;
}

interface PdfObject {
  readonly head: string;
  readonly stream: Uint8Array | null;
}

function fail(what: string): never {
  throw new Error(`not a PDF that can be read: ${what}`);
}

/** The offset of each object, from the cross-reference table that the file's end points to. **Source** ISO 32000-1, 7.5.4 and 7.5.5. */
function offsetsOf(text: string): readonly number[] {
  const start = Number(/startxref\n(\d+)\n%%EOF\n$/.exec(text)?.[1] ?? fail('no startxref at its end'));
  const table = /^xref\n0 (\d+)\n((?:\d{10} \d{5} [fn] \n)+)trailer\n/.exec(text.slice(start));
  const rows = table?.[2]?.match(/.{20}/gs) ?? fail('no table where startxref points to');
  if (rows.length !== Number(table?.[1]) || rows[0] !== '0000000000 65535 f \n') fail('a table of another length');
  return rows.map((row) => Number(row.slice(0, 10)));
}

/** The object that begins exactly at its offset. **Source** ISO 32000-1, 7.3.8 and 7.3.10. */
function objectAt(bytes: Uint8Array, text: string, offset: number, number: number): PdfObject {
  const opening = `${number} 0 obj\n`;
  if (!text.startsWith(opening, offset)) fail(`object ${number} is not at ${offset}`);
  const from = offset + opening.length;
  const head = text.slice(from, text.indexOf('endobj', from));
  const length = /^<< \/Length (\d+) \/Filter \/FlateDecode >>\nstream\n/.exec(head);
  if (length === null) return { head, stream: null };
  const at = from + length[0].length;
  const end = at + Number(length[1]);
  if (!text.startsWith('\nendstream\nendobj\n', end)) fail(`the stream of object ${number} has another length`);
  return { head, stream: inflateSync(bytes.subarray(at, end)) };
}

const utf16 = (hex: string): string =>
  (hex.match(/.{4}/g) ?? []).map((code) => String.fromCharCode(Number.parseInt(code, 16))).join('');

/** Reads what our writer may write, by the standard and not by the writer; refuses all else. **Source** ISO 32000-1 (PDF 1.7). */
export function readPdf(bytes: Uint8Array): ReadPdf {
  const text = Buffer.from(bytes).toString('latin1');
  if (!/^%PDF-1\.7\n%[\u0080-\u00ff]{4}\n/.test(text)) fail('another header');
  const offsets = offsetsOf(text);
  const objectNumbered = (number: number): PdfObject =>
    objectAt(bytes, text, offsets[number] ?? fail(`no object ${number}`), number);
  const linked = (head: string, key: string): PdfObject =>
    objectNumbered(Number(new RegExp(`/${key} (\\d+) 0 R`).exec(head)?.[1] ?? fail(`no ${key}`)));
  const trailer = text.slice(text.lastIndexOf('trailer\n'));
  if (!trailer.includes(`/Size ${offsets.length} `)) fail('another size than its table');
  const tree = linked(linked(trailer, 'Root').head, 'Pages').head;
  const kids = [...(/\/Kids \[([^\]]*)\]/.exec(tree)?.[1] ?? '').matchAll(/(\d+) 0 R/g)].map(([, kid]) => Number(kid));
  if (Number(/\/Count (\d+)/.exec(tree)?.[1]) !== kids.length) fail('another count than pages');
  const pages = kids.map((kid): ReadPage => {
    const { head } = objectNumbered(kid);
    const box = /\/MediaBox \[([^\]]*)\]/.exec(head)?.[1] ?? fail('a page without a box');
    const { stream } = linked(head, 'Contents');
    return { mediaBox: box.split(' ').map(Number), content: Buffer.from(stream ?? []).toString('latin1') };
  });
  const title = utf16(/\/Title <FEFF([0-9a-f]*)>/.exec(linked(trailer, 'Info').head)?.[1] ?? '');
  return { pages, title };
}

/** The words of a page that can be searched for. **Source** ISO 32000-1, 9.4.3. */
export const wordsOn = ({ content }: ReadPage): readonly string[] =>
  [...content.matchAll(/<([0-9a-f]*)> Tj/g)].map(([, hex = '']) => Buffer.from(hex, 'hex').toString('latin1'));

/** An outline as its points, from its first one on. */
export type Outline = readonly number[];

/** Points told from the first one. */
export const fromFirst = (numbers: Outline): Outline =>
  numbers.map((value, index) => value - (numbers[index % 2] ?? 0));

const numbersIn = (text: string): readonly number[] => (text.match(/-?\d+(?:\.\d+)?/g) ?? []).map(Number);

/** The outlines that a page fills, each from its first point on. **Source** ISO 32000-1, 8.5.2 and 8.5.3. */
export const filledOutlines = ({ content }: ReadPage): readonly Outline[] =>
  [...content.matchAll(/ rg\n((?:[-\d. ]+ [mlc]\n|h\n)+)f\b/g)].map(([, outline = '']) =>
    fromFirst(numbersIn(outline)),
  );
