import type { DrawnWords, Shape, Step } from './shape.ts';

const short = (value: number): string => String(Math.round(value * 1000) / 1000);

const orderOf = (step: Step): string => {
  if (step[0] === 'Z') return 'h';
  const [letter, ...values] = step;
  return `${values.map(short).join(' ')} ${letter === 'M' ? 'm' : letter === 'L' ? 'l' : 'c'}`;
};

const outline = (steps: readonly Step[]): string => steps.map(orderOf).join('\n');

/** `#rrggbb` as three numbers from 0 to 1. */
const rgb = (colour: string): string =>
  [1, 3, 5].map((at) => short(Number.parseInt(colour.slice(at, at + 2), 16) / 255)).join(' ');

/** The names of the opacities that a page uses. */
export class Opacities {
  readonly #names = new Map<string, string>();

  nameOf(opacity: number): string {
    const key = short(opacity);
    const name = this.#names.get(key) ?? `O${this.#names.size}`;
    this.#names.set(key, name);
    return name;
  }

  get all(): readonly (readonly [name: string, opacity: string])[] {
    return [...this.#names].map(([opacity, name]) => [name, opacity]);
  }
}

const far = 100_000;

function filled({ steps, fill }: Shape): string {
  if (fill === null) return '';
  if (fill.kind === 'plain') return `${rgb(fill.colour)} rg\n${outline(steps)}\nf`;
  const half = (colour: string, x: number): string =>
    `q ${short(x)} ${-far} ${far} ${2 * far} re W n\n${rgb(colour)} rg\n${outline(steps)}\nf Q`;
  return `${half(fill.left, fill.middleX - far)}\n${half(fill.right, fill.middleX)}`;
}

function stroked({ steps, stroke }: Shape): string {
  if (stroke === null) return '';
  const dash = `[${stroke.dash.map(short).join(' ')}] 0 d`;
  return `${rgb(stroke.colour)} RG ${short(stroke.width)} w ${dash} ${stroke.isRound ? 1 : 0} J\n${outline(steps)}\nS`;
}

/** The orders that paint a shape. **Source** ISO 32000-1, 8.5 and 8.6. */
export function paintingOf(shape: Shape, opacities: Opacities): string {
  const opacity = shape.opacity < 1 ? `/${opacities.nameOf(shape.opacity)} gs\n` : '';
  return `q ${opacity}${[filled(shape), stroked(shape)].filter((part) => part !== '').join('\n')} Q`;
}

const isLatin = (text: string): boolean => /^[\u0020-\u007e\u00a0-\u00ff]*$/.test(text);

/** A text that is not painted, to be searched for and copied; nothing for letters beyond Latin-1, which its font has not. **Source** ISO 32000-1, 9.3.6, mode 3. */
export function hiddenWords({ text, x, y, size }: DrawnWords): string {
  if (!isLatin(text)) return '';
  const codes = Array.from({ length: text.length }, (_, at) => text.charCodeAt(at).toString(16).padStart(2, '0')).join(
    '',
  );
  return `BT 3 Tr /F ${short(size)} Tf 1 0 0 -1 ${short(x)} ${short(y)} Tm <${codes}> Tj ET`;
}
