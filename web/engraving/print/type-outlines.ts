import { parse, type Font, type Glyph } from 'opentype.js';
import type { Step } from './shape.ts';
import { typeFaces, type TypeFace } from './type-faces.data.ts';

/** How a text is set. **Units** pixels. */
export interface TypeStyle {
  readonly family: 'sans' | 'serif';
  readonly isItalic: boolean;
  readonly weight: number;
  readonly size: number;
}

/** A text as outlines, beginning at 0, 0 on its baseline. */
export interface OutlinedText {
  readonly steps: readonly Step[];
  readonly width: number;
  /** Letters that none of our faces has. */
  readonly missing: string;
}

interface LoadedFont {
  readonly font: Font;
  /** Lining figures in the place of old-style ones. */
  readonly lining: ReadonlyMap<number, number>;
}

function liningOf(font: Font): ReadonlyMap<number, number> {
  const pairs = font.substitution.getFeature('lnum', 'latn') ?? font.substitution.getFeature('lnum', 'DFLT') ?? [];
  return new Map(
    pairs.flatMap(({ sub, by }) => (typeof sub === 'number' && typeof by === 'number' ? [[sub, by] as const] : [])),
  );
}

/** Fetches a font's bytes. */
export type FetchBytes = (address: string) => Promise<ArrayBuffer>;

const fetchBytes: FetchBytes = async (address) => {
  const response = await fetch(address);
  if (!response.ok) throw new Error(`A font that the picture needs did not come (${response.status}).`);
  return response.arrayBuffer();
};

/** Our typefaces as outlines, so that a file needs no fonts. Files are fetched when a letter first needs them. */
export class TypeOutlines {
  readonly #fetch: FetchBytes;
  readonly #fonts = new Map<string, Promise<LoadedFont>>();

  constructor(fetch: FetchBytes = fetchBytes) {
    this.#fetch = fetch;
  }

  /** A text as outlines. */
  async outlined(text: string, style: TypeStyle): Promise<OutlinedText> {
    const { files } = faceFor(style);
    const steps: Step[] = [];
    let missing = '';
    let x = 0;
    let before: { readonly font: Font; readonly glyph: Glyph } | null = null;
    for (const letter of text) {
      const found = await this.#glyph(letter, files);
      if (found === null) {
        missing += letter;
        continue;
      }
      const scale = style.size / found.font.unitsPerEm;
      if (before?.font === found.font) x += found.font.getKerningValue(before.glyph, found.glyph) * scale;
      steps.push(...stepsOfGlyph(found.glyph, x, style.size));
      x += found.glyph.advanceWidth * scale;
      before = found;
    }
    return { steps, width: x, missing };
  }

  async #glyph(letter: string, files: readonly string[]): Promise<{ font: Font; glyph: Glyph } | null> {
    for (const file of files) {
      const { font, lining } = await this.#load(file);
      const index = font.charToGlyphIndex(standIn[letter] ?? letter);
      if (index > 0) return { font, glyph: font.glyphs.get(lining.get(index) ?? index) };
    }
    return null;
  }

  #load(file: string): Promise<LoadedFont> {
    const known = this.#fonts.get(file);
    if (known !== undefined) return known;
    const loading = this.#fetch(file).then((bytes) => {
      const font = parse(bytes);
      return { font, lining: liningOf(font) };
    });
    loading.catch(() => this.#fonts.delete(file)); // told to whoever waits; the next picture asks again
    this.#fonts.set(file, loading);
    return loading;
  }
}

/** Signs of music that text faces lack, by the letters that are printed for them. */
const standIn: Readonly<Record<string, string>> = { '♯': '#', '♭': 'b', '\u00a0': ' ', '\u2011': '-' };

/** The cut nearest to a style. */
function faceFor({ family, isItalic, weight }: TypeStyle): TypeFace {
  const far = (face: TypeFace): number =>
    (face.family === family ? 0 : 10_000) + (face.isItalic === isItalic ? 0 : 1000) + Math.abs(face.weight - weight);
  return typeFaces.reduce((best, face) => (far(face) < far(best) ? face : best));
}

const stepsOfGlyph = (glyph: Glyph, x: number, size: number): readonly Step[] => {
  let penX = x;
  let penY = 0;
  return glyph.getPath(x, 0, size).commands.map((order): Step => {
    const { type, x1, y1, x2, y2 } = order;
    const fromX = penX;
    const fromY = penY;
    if (type === 'Z') return ['Z'];
    penX = order.x;
    penY = order.y;
    if (type === 'C') return ['C', x1, y1, x2, y2, order.x, order.y];
    if (type !== 'Q') return [type, order.x, order.y];
    const third = (end: number, handle: number): number => end + (2 / 3) * (handle - end);
    return ['C', third(fromX, x1), third(fromY, y1), third(order.x, x1), third(order.y, y1), order.x, order.y];
  });
};
