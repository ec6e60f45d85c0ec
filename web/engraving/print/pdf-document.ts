import { zlibSync } from 'fflate';
import { hiddenWords, Opacities, paintingOf } from './pdf-content.ts';
import type { Drawing } from './shape.ts';

/** One page: a drawing whose unit is a point, 1/72 inch. */
export type PdfPage = Drawing;

/** What a PDF says about itself. */
export interface PdfAbout {
  readonly title: string;
  readonly author: string;
}

const latin = (text: string): Uint8Array => Uint8Array.from(text, (letter) => letter.charCodeAt(0));

/** A text string, in UTF-16 with its mark. **Source** ISO 32000-1, 7.9.2.2. */
const textString = (text: string): string =>
  `<FEFF${Array.from({ length: text.length }, (_, at) => text.charCodeAt(at).toString(16).padStart(4, '0')).join('')}>`;

function stream(content: string): Uint8Array {
  const packed = zlibSync(latin(content));
  return joined([latin(`<< /Length ${packed.length} /Filter /FlateDecode >>\nstream\n`), packed, latin('\nendstream')]);
}

function joined(parts: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}

function contentOf(page: PdfPage, opacities: Opacities): string {
  const painted = page.shapes.map((shape) => paintingOf(shape, opacities));
  const hidden = page.words.map(hiddenWords).filter((words) => words !== '');
  return [`1 0 0 -1 0 ${page.height} cm`, ...painted, ...hidden].join('\n');
}

const firstPageObject = 5;

/** The objects of one page: the page and its content. */
function pageObjects(page: PdfPage, number: number): readonly (string | Uint8Array)[] {
  const opacities = new Opacities();
  const content = stream(contentOf(page, opacities));
  const states = opacities.all.map(([name, opacity]) => `/${name} << /ca ${opacity} /CA ${opacity} >>`).join(' ');
  const resources = `<< /ExtGState << ${states} >> /Font << /F 4 0 R >> >>`;
  const box = `[0 0 ${page.width} ${page.height}]`;
  return [
    `<< /Type /Page /Parent 2 0 R /MediaBox ${box} /Resources ${resources} /Contents ${number + 1} 0 R >>`,
    content,
  ];
}

function fileOf(objects: readonly (string | Uint8Array)[]): Uint8Array {
  const parts: Uint8Array[] = [latin('%PDF-1.7\n%\u00e2\u00e3\u00cf\u00d3\n')];
  const offsets: number[] = [];
  let length = parts[0]?.length ?? 0;
  const put = (part: Uint8Array): void => {
    parts.push(part);
    length += part.length;
  };
  objects.forEach((object, index) => {
    offsets.push(length);
    put(latin(`${index + 1} 0 obj\n`));
    put(typeof object === 'string' ? latin(object) : object);
    put(latin('\nendobj\n'));
  });
  const table = offsets.map((offset) => `${String(offset).padStart(10, '0')} 00000 n \n`).join('');
  const count = objects.length + 1;
  put(
    latin(
      `xref\n0 ${count}\n0000000000 65535 f \n${table}trailer\n<< /Size ${count} /Root 1 0 R /Info 3 0 R >>\nstartxref\n${length}\n%%EOF\n`,
    ),
  );
  return joined(parts);
}

/** A PDF of pages, vector throughout; its bytes depend on nothing else. **Source** ISO 32000-1 (PDF 1.7). */
export function pdfDocument(pages: readonly PdfPage[], { title, author }: PdfAbout): Uint8Array {
  const kids = pages.map((_, index) => `${firstPageObject + 2 * index} 0 R`).join(' ');
  return fileOf([
    '<< /Type /Catalog /Pages 2 0 R /ViewerPreferences << /DisplayDocTitle true >> >>',
    `<< /Type /Pages /Kids [${kids}] /Count ${pages.length} >>`,
    `<< /Title ${textString(title)} /Author ${textString(author)} /Creator ${textString('Heddle')} >>`,
    '<< /Type /Font /Subtype /Type1 /BaseFont /Helvetica /Encoding /WinAnsiEncoding >>',
    ...pages.flatMap((page, index) => pageObjects(page, firstPageObject + 2 * index)),
  ]);
}
