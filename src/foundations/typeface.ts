import { create, type Font } from 'fontkit';

export type Face = 'regular' | 'semibold';

export const FACES: readonly Face[] = ['regular', 'semibold'];

/** How far a text reaches at a type size of 1: along the baseline, above it and below it. */
export interface Extent {
  readonly width: number;
  readonly up: number;
  readonly down: number;
}

/** A family of two faces that can measure text and be embedded in a PDF. */
export interface Typeface {
  readonly fonts: Readonly<Record<Face, Font>>;
  /** Extent of the ink at type size 1; multiply by the size. The same text is measured once. */
  extent(text: string, face: Face): Extent;
  /** Whether both faces have the letter, or a picture of it can be had. */
  has(codePoint: number): boolean;
  /**
   * A text of a size in inches as a picture, drawn by a font of the machine; null where the faces have all its
   * letters. Absent where no other fonts can be reached.
   */
  picture?(text: string, face: Face, size: number): TextPicture | null;
}

/** A text drawn in dots, black on white. */
export interface TextPicture {
  readonly dpi: number;
  /** Dots across and down. */
  readonly width: number;
  readonly height: number;
  /** From where the baseline begins to the picture's upper left corner, leftward and upward, inches. */
  readonly left: number;
  readonly up: number;
  /** 0 black … 255 white, row by row. */
  readonly grey: Uint8Array;
}

/**
 * Opens the typeface from the bytes of two TrueType files. Loading the bytes is the caller's: a file on the
 * command line, a fetch in the browser. Throws when the bytes are no font, which only a broken build can cause.
 */
export function openTypeface(bytes: Readonly<Record<Face, Uint8Array>>): Typeface {
  const fonts = { regular: opened(bytes.regular), semibold: opened(bytes.semibold) };
  const words = { regular: new Map<string, Extent>(), semibold: new Map<string, Extent>() };
  const texts = { regular: new Map<string, Extent>(), semibold: new Map<string, Extent>() };
  const measured = (text: string, face: Face): Extent => {
    const cached = words[face].get(text);
    if (cached) return cached;
    const font = fonts[face];
    const run = font.layout(text);
    const inked = text.trim() !== '';
    const extent = {
      width: run.advanceWidth / font.unitsPerEm,
      up: inked ? run.bbox.maxY / font.unitsPerEm : 0,
      down: inked ? -run.bbox.minY / font.unitsPerEm : 0,
    };
    words[face].set(text, extent);
    return extent;
  };
  return {
    fonts,
    // Measured word by word with the blank that follows, as the PDF is set: no kerning across a blank.
    extent(text, face) {
      const known = texts[face].get(text);
      if (known) return known;
      let width = 0;
      let up = 0;
      let down = 0;
      for (const word of text.match(/[^ ]* ?/g) ?? []) {
        if (word === '') continue;
        const part = measured(word, face);
        width += part.width;
        up = Math.max(up, part.up);
        down = Math.max(down, part.down);
      }
      const extent = { width, up, down };
      texts[face].set(text, extent);
      return extent;
    },
    has: (codePoint) => FACES.every((face) => fonts[face].hasGlyphForCodePoint(codePoint)),
  };
}

/**
 * A font whose letters know what they stand for, however they are first come by. The library keeps each outline as
 * it was first asked for, and one asked for as a piece of another (the o of ó, the ’ of ”) would stand for nothing:
 * the text of a PDF would then be read, searched and copied without it.
 */
function opened(bytes: Uint8Array): Font {
  const font = create(bytes);
  const outline = font.getGlyph.bind(font);
  font.getGlyph = (id, codePoints) =>
    outline(id, codePoints ?? [...(font.stringsForGlyph(id)[0] ?? '')].map((one) => one.codePointAt(0)!));
  return font;
}

export interface Printable {
  readonly text: string;
  /** Letters of the original that the typeface lacks; empty when it is printed in full. */
  readonly lacking: string;
}

/**
 * A name as the typeface can print it. Blanks and control characters become single blanks, invisible format
 * characters go. Each stretch of letters that the typeface lacks becomes one `·`; a name of which no letter or
 * digit is left becomes `code`. Never an empty box.
 */
export function printable(typeface: Typeface, name: string, code: string): Printable {
  const tidy = name
    .normalize('NFC')
    .replace(/[\s\p{Cc}]+/gu, ' ')
    .replace(/\p{Cf}/gu, '')
    .trim();
  let text = '';
  let lacking = '';
  let inGap = false;
  for (const letter of tidy) {
    // A combining mark belongs to the letter before it and goes where that goes.
    const gap: boolean = /\p{M}/u.test(letter) && inGap ? true : !typeface.has(letter.codePointAt(0) ?? 0);
    if (gap) {
      lacking += letter;
      if (!inGap) text += '·';
    } else text += letter;
    inGap = gap;
  }
  return /[\p{L}\p{N}]/u.test(text) ? { text, lacking } : { text: code, lacking };
}
