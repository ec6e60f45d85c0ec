/** What we use of the font library. */
declare module 'opentype.js' {
  interface Glyph {
    readonly index: number;
    readonly advanceWidth: number;
    getPath(
      x: number,
      y: number,
      fontSize: number,
    ): {
      readonly commands: readonly {
        readonly type: 'M' | 'L' | 'C' | 'Q' | 'Z';
        readonly x: number;
        readonly y: number;
        readonly x1: number;
        readonly y1: number;
        readonly x2: number;
        readonly y2: number;
      }[];
    };
  }
  interface Font {
    readonly unitsPerEm: number;
    readonly glyphs: { get(index: number): Glyph };
    readonly substitution: {
      getFeature(
        feature: string,
        script: string,
      ): readonly { readonly sub: unknown; readonly by: unknown }[] | undefined;
    };
    charToGlyphIndex(letter: string): number;
    getKerningValue(left: Glyph, right: Glyph): number;
  }
  export function parse(bytes: ArrayBuffer): Font;
}
