import { describe, expect, it } from 'vitest';
import { inks, inkShapes, groundSentinel } from './shape-inks.ts';
import type { Drawing, Shape } from './shape.ts';
import { svgDocument } from './svg-document.ts';

const box = (x: number, y: number, width: number, height: number): Shape['steps'] => [
  ['M', x, y],
  ['L', x + width, y],
  ['L', x + width, y + height],
  ['L', x, y + height],
  ['Z'],
];

const shape = (steps: Shape['steps'], more: Partial<Shape> = {}): Shape => ({
  steps,
  fill: { kind: 'plain', colour: '#000000' },
  stroke: null,
  opacity: 1,
  tag: null,
  ...more,
});

const staffLine = shape(
  [
    ['M', 0, 50],
    ['L', 200, 50],
  ],
  {
    fill: null,
    stroke: { colour: '#8d857a', width: 1, dash: [], isRound: false },
  },
);
const numberGround = shape(box(90, 45, 20, 10), {
  fill: { kind: 'plain', colour: groundSentinel },
  tag: { kind: 'ground' },
});
const head = shape(box(20, 40, 12, 10), {
  fill: { kind: 'plain', colour: '#c2415a' },
  tag: { kind: 'head', note: 'n1"&', lines: ['M', 'B'] },
});

const drawing = (shapes: readonly Shape[]): Drawing => ({ width: 200, height: 100, shapes, words: [] });

/** The paths of a drawing: outline, paint, and what else is said of them. */
const pathsOf = (svg: string): readonly (readonly string[])[] =>
  [...svg.matchAll(/<path d="([^"]*)" fill="([^"]*)"([^>]*)\/>/g)].map(([, ...parts]) => parts);

describe('a still as SVG', () => {
  it('has an open ground: what would cover staff lines is left out, and they end where a number stands', () => {
    const paths = pathsOf(svgDocument(drawing(inkShapes([staffLine, numberGround], inks.overLight)), 'Bars 1–4'));
    expect(paths.map(([outline, fill]) => [outline, fill])).toEqual([
      ['M0 50L90 50', 'none'],
      ['M110 50L200 50', 'none'],
    ]);
  });

  it('covers them on paper', () => {
    const paths = pathsOf(svgDocument(drawing(inkShapes([staffLine, numberGround], inks.paper)), 'Bars 1–4'));
    expect(paths.map(([, fill]) => fill)).toEqual(['none', '#ffffff']);
  });

  it('marks each head with its note and the letters of its lines, in their colour', () => {
    const svg = svgDocument(drawing(inkShapes([head], inks.overDark)), 'Bars 1–4 & more');
    expect(pathsOf(svg).map(([, fill, more]) => [fill, more])).toEqual([
      ['#c2415a', ' class="head" data-note="n1&quot;&amp;" data-lines="M B"'],
    ]);
    expect(svg).toContain('<title>Bars 1–4 &amp; more</title>');
  });
});
