import { isPlain, measuresOf } from './letter-measures.ts';
import regular from './letters-regular.json' with { type: 'json' };
import semibold from './letters-semibold.json' with { type: 'json' };

export type Face = 'regular' | 'semibold';

export const FACES: readonly Face[] = ['regular', 'semibold'];

/** How far a text reaches at a type size of 1: along the baseline, above it and below it. */
export interface Extent {
  readonly width: number;
  readonly up: number;
  readonly down: number;
}

/** The TrueType file of each face. */
export type FontFiles = Readonly<Record<Face, Uint8Array>>;

/** A family of two faces that can measure text. */
export interface Typeface {
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

/** A typeface whose letters can also be drawn and embedded, see `fonts.ts`. */
export interface FullTypeface extends Typeface {
  readonly files: FontFiles;
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
 * The typeface of all that is printed, as far as texts are plain (see `isPlain`): known from tables, so that nothing
 * has to be loaded for it. `withShaping` adds the other texts and the font itself.
 */
export function openTypeface(): Typeface {
  const faces = { regular: measuresOf(regular), semibold: measuresOf(semibold) };
  return {
    extent: wordByWord((word, face) => {
      const { unitsPerEm, extent } = faces[face];
      const { width, up, down } = extent(word);
      return { width: width / unitsPerEm, up: up / unitsPerEm, down: -down / unitsPerEm };
    }),
    has: (codePoint) => FACES.every((face) => faces[face].has(codePoint)),
  };
}

/** Measures texts word by word with the blank that follows, as the PDF is set: no kerning across a blank. */
export function wordByWord(measured: Typeface['extent']): Typeface['extent'] {
  const words = { regular: new Map<string, Extent>(), semibold: new Map<string, Extent>() };
  const texts = { regular: new Map<string, Extent>(), semibold: new Map<string, Extent>() };
  return (text, face) => {
    const known = texts[face].get(text);
    if (known) return known;
    let width = 0;
    let up = 0;
    let down = 0;
    for (const word of text.match(/[^ ]* ?/g) ?? []) {
      if (word === '') continue;
      const part = words[face].get(word) ?? measured(word, face);
      words[face].set(word, part);
      width += part.width;
      // Of what has no ink both are infinitely far off.
      up = Math.max(up, part.up);
      down = Math.max(down, part.down);
    }
    const extent = { width, up, down };
    texts[face].set(text, extent);
    return extent;
  };
}

const tidied = (name: string): string =>
  name
    .normalize('NFC')
    .replace(/[\s\p{Cc}]+/gu, ' ')
    .replace(/\p{Cf}/gu, '')
    .trim();

/** Whether the typeface as it was opened is all that a name needs: it has every letter and can measure it. */
export function suffices(typeface: Typeface, name: string): boolean {
  const tidy = tidied(name);
  return isPlain(tidy) && [...tidy].every((letter) => typeface.has(letter.codePointAt(0) ?? 0));
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
  const tidy = tidied(name);
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
