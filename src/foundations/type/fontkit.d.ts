/** The part of fontkit that is used: opening a TrueType font, measuring, and asking for a letter. */
declare module 'fontkit' {
  export interface Font {
    readonly unitsPerEm: number;
    hasGlyphForCodePoint(codePoint: number): boolean;
    /** A letter's outline, kept for the next time; `codePoints` is what it stands for, nothing when absent. */
    getGlyph(id: number, codePoints?: readonly number[]): unknown;
    /** The texts that a letter's outline alone is drawn for. */
    stringsForGlyph(id: number): readonly string[];
    layout(text: string): {
      readonly advanceWidth: number;
      readonly bbox: { readonly minY: number; readonly maxY: number };
      readonly glyphs: readonly {
        readonly path: {
          readonly commands: readonly { readonly command: string; readonly args: readonly number[] }[];
        };
      }[];
      readonly positions: readonly {
        readonly xAdvance: number;
        readonly xOffset: number;
        readonly yOffset: number;
      }[];
    };
  }
  export function create(bytes: Uint8Array): Font;
}
