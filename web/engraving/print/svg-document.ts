import type { Drawing, Paint, Shape, Step } from './shape.ts';

const short = (value: number): string => String(Math.round(value * 100) / 100);

const dataOf = (steps: readonly Step[]): string =>
  steps.map(([letter, ...values]) => letter + values.map(short).join(' ')).join('');

const escaped = (text: string): string =>
  text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('"', '&quot;');

class Gradients {
  readonly #known = new Map<string, string>();

  idOf({ left, right, middleX }: Extract<Paint, { kind: 'halves' }>): string {
    const key = `${left} ${right} ${short(middleX)}`;
    const id = this.#known.get(key) ?? `halves-${this.#known.size + 1}`;
    this.#known.set(key, id);
    return id;
  }

  /** Two stops at one place make a hard edge. */
  definitions(): string {
    const all = [...this.#known].map(([key, id]) => {
      const [left = '', right = '', middle = '0'] = key.split(' ');
      const x1 = short(Number(middle) - 1);
      const x2 = short(Number(middle) + 1);
      const stops = `<stop offset=".5" stop-color="${left}"/><stop offset=".5" stop-color="${right}"/>`;
      return `<linearGradient id="${id}" gradientUnits="userSpaceOnUse" x1="${x1}" y1="0" x2="${x2}" y2="0">${stops}</linearGradient>`;
    });
    return all.length === 0 ? '' : `<defs>${all.join('')}</defs>\n`;
  }
}

function tagOf({ tag }: Shape): string {
  if (tag === null || !('note' in tag)) return '';
  return ` class="${tag.kind}" data-note="${escaped(tag.note)}" data-lines="${escaped(tag.lines.join(' '))}"`;
}

function strokeOf({ stroke }: Shape): string {
  if (stroke === null) return '';
  const dash = stroke.dash.length === 0 ? '' : ` stroke-dasharray="${stroke.dash.map(short).join(' ')}"`;
  const cap = stroke.isRound ? ' stroke-linecap="round"' : '';
  return ` stroke="${stroke.colour}" stroke-width="${short(stroke.width)}"${dash}${cap}`;
}

function pathOf(shape: Shape, gradients: Gradients): string {
  const { fill, opacity } = shape;
  const paint = fill === null ? 'none' : fill.kind === 'plain' ? fill.colour : `url(#${gradients.idOf(fill)})`;
  const faint = opacity < 1 ? ` opacity="${short(opacity)}"` : '';
  return `<path d="${dataOf(shape.steps)}" fill="${paint}"${strokeOf(shape)}${faint}${tagOf(shape)}/>`;
}

/** A drawing as an SVG file that needs nothing else: no fonts, no style sheet, no script; heads and fret numbers name their note and lines. **Source** SVG 1.1, so that video programs read it. */
export function svgDocument(drawing: Drawing, title: string): string {
  const gradients = new Gradients();
  const paths = drawing.shapes.map((shape) => pathOf(shape, gradients)).join('\n');
  const [width, height] = [short(drawing.width), short(drawing.height)];
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<svg xmlns="http://www.w3.org/2000/svg" version="1.1" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}">`,
    `<title>${escaped(title)}</title>`,
    `${gradients.definitions()}${paths}`,
    '</svg>',
    '',
  ].join('\n');
}
