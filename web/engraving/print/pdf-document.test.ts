import { describe, expect, it } from 'vitest';
import { filledOutlines, readPdf, wordsOn } from '../../../tests/support/pdf-reader.ts';
import { papers } from './page-plan.ts';
import { pdfDocument } from './pdf-document.ts';
import type { Drawing, Shape, Step } from './shape.ts';

const triangle: readonly Step[] = [['M', 10, 20], ['L', 30, 20], ['C', 30, 30, 20, 40, 10, 40], ['Z']];

const filled = (more: Partial<Shape> = {}): Shape => ({
  steps: triangle,
  fill: { kind: 'plain', colour: '#ff0000' },
  stroke: null,
  opacity: 1,
  tag: null,
  ...more,
});

const pageOf = (paper: keyof typeof papers, shapes: readonly Shape[], words: Drawing['words'] = []): Drawing => ({
  ...papers[paper],
  shapes,
  words,
});

const about = { title: 'Žluťoučký kůň – 𝄞', author: 'Ilse Brandt' };

describe('a PDF of our own writing', () => {
  it('has a table whose offsets lead to its objects, a page for each drawing, and its title in any script', () => {
    const pages = [pageOf('a4', [filled()]), pageOf('letter', []), pageOf('a4', [filled({ opacity: 0.2 }), filled()])];
    const read = readPdf(pdfDocument(pages, about));
    expect(read.title).toBe(about.title);
    expect(read.pages.map((page) => filledOutlines(page).length)).toEqual([1, 0, 2]);
  });

  // ISO 216: A4 is 210 by 297 mm; ANSI/ASME Y14.1: Letter is 8.5 by 11 inches; ISO 32000-1, 8.3.2.3: 72 units to an inch.
  it.each([
    ['a4', (210 / 25.4) * 72, (297 / 25.4) * 72, [595.28, 841.89]],
    ['letter', 8.5 * 72, 11 * 72, [612, 792]],
  ] as const)('has pages of %s', (paper, width, height, rounded) => {
    const box = readPdf(pdfDocument([pageOf(paper, [])], about)).pages[0]!.mediaBox;
    expect(box.slice(0, 2)).toEqual([0, 0]);
    expect(box[2]).toBeCloseTo(width, 6);
    expect(box[3]).toBeCloseTo(height, 6);
    expect(box.slice(2).map((side) => Math.round(side * 100) / 100)).toEqual(rounded);
  });

  it('fills outlines where they stand, from the top of the page down', () => {
    const { content } = readPdf(pdfDocument([pageOf('letter', [filled()])], about)).pages[0]!;
    expect(content.split('\n')).toEqual([
      '1 0 0 -1 0 792 cm',
      'q 1 0 0 rg',
      '10 20 m',
      '30 20 l',
      '30 30 20 40 10 40 c',
      'h',
      'f Q',
    ]);
  });

  it('paints two colours side by side by painting the outline twice', () => {
    const halves = { kind: 'halves', left: '#000000', right: '#ffffff', middleX: 20 } as const;
    const page = readPdf(pdfDocument([pageOf('a4', [filled({ fill: halves })])], about)).pages[0]!;
    const [left, right] = filledOutlines(page);
    expect([left, filledOutlines(page).length]).toEqual([right, 2]);
    expect(page.content.match(/ re W n/g)).toHaveLength(2);
  });

  it('keeps words to be searched for, in Latin letters, and paints none of them', () => {
    const words = [
      { text: 'Für Gitarre (Melodie)', x: 1, y: 2, size: 3 },
      { text: 'Гитара', x: 1, y: 2, size: 3 },
    ];
    const page = readPdf(pdfDocument([pageOf('a4', [], words)], about)).pages[0]!;
    expect(wordsOn(page)).toEqual(['Für Gitarre (Melodie)']);
    // ISO 32000-1, 9.3.6: mode 3 neither fills nor strokes.
    expect(page.content.match(/BT 3 Tr /g)).toHaveLength(1);
  });

  it('is the same, byte for byte, for the same drawings', () => {
    const make = (): Uint8Array => pdfDocument([pageOf('a4', [filled()])], about);
    expect(make()).toEqual(make());
  });
});
