import type { Extent, Face, FullTypeface, TextPicture } from '../foundations/type/typeface.ts';

/** What a printer lays down at least; letters drawn in so many dots look set. */
const PICTURE_DPI = 600;

/** Size at which texts are measured and letters compared, in dots. */
const MEASURED_AT = 100;

/** Clear dots around a drawn text. */
const RIM = 4;

/** A code point that no font has a letter for (unassigned in Unicode): what is drawn for it is the empty box. */
const NO_LETTER = '\u0378';

/**
 * A typeface that goes on, for texts with letters it lacks, to the fonts of the machine: such a text is measured and
 * drawn by them, as a picture. A letter that they lack too, so that only an empty box would be drawn, stays lacking.
 * `family` names the faces on the canvas, so that the other letters of a text look as they do elsewhere. Where no
 * canvas can be had the typeface comes back as it is.
 */
export function withSystemLetters(typeface: FullTypeface, family: string): FullTypeface {
  const brush =
    typeof OffscreenCanvas === 'undefined'
      ? null
      : new OffscreenCanvas(2 * MEASURED_AT, 2 * MEASURED_AT).getContext('2d', { willReadFrequently: true });
  if (!brush) return typeface;
  const font = (face: Face, dots: number): string =>
    `${face === 'semibold' ? 600 : 400} ${dots}px "${family}", sans-serif`;

  const lookOf = (letter: string): string => {
    brush.fillStyle = '#fff';
    brush.fillRect(0, 0, 2 * MEASURED_AT, 2 * MEASURED_AT);
    brush.fillStyle = '#000';
    brush.font = font('regular', MEASURED_AT);
    brush.fillText(letter, MEASURED_AT / 2, 1.4 * MEASURED_AT);
    return brush.getImageData(0, 0, 2 * MEASURED_AT, 2 * MEASURED_AT).data.join();
  };
  const blank = lookOf(' ');
  const box = lookOf(NO_LETTER);
  const found = new Map<number, boolean>();
  const hasElsewhere = (codePoint: number): boolean => {
    let has = found.get(codePoint);
    if (has === undefined) {
      const look = lookOf(String.fromCodePoint(codePoint));
      has = look !== box && look !== blank;
      found.set(codePoint, has);
    }
    return has;
  };
  const isForeign = (text: string): boolean =>
    [...text].some((letter) => !typeface.has(letter.codePointAt(0) ?? 0));

  const extents = new Map<string, Extent & { readonly left: number; readonly right: number }>();
  const measured = (text: string, face: Face) => {
    const key = `${face} ${text}`;
    let extent = extents.get(key);
    if (!extent) {
      brush.font = font(face, MEASURED_AT);
      const ink = brush.measureText(text);
      extent = {
        width: ink.width / MEASURED_AT,
        up: ink.actualBoundingBoxAscent / MEASURED_AT,
        down: ink.actualBoundingBoxDescent / MEASURED_AT,
        left: Math.max(0, ink.actualBoundingBoxLeft) / MEASURED_AT,
        right: Math.max(ink.width, ink.actualBoundingBoxRight) / MEASURED_AT,
      };
      extents.set(key, extent);
    }
    return extent;
  };

  return {
    ...typeface,
    extent: (text, face) => (isForeign(text) ? measured(text, face) : typeface.extent(text, face)),
    has: (codePoint) => typeface.has(codePoint) || hasElsewhere(codePoint),
    picture: (text, face, size) => {
      if (!isForeign(text)) return null;
      const dots = size * PICTURE_DPI;
      const { up, down, left, right } = measured(text, face);
      return draw(text, font(face, dots), {
        left: Math.ceil(left * dots) + RIM,
        right: Math.ceil(right * dots) + RIM,
        up: Math.ceil(up * dots) + RIM,
        down: Math.ceil(down * dots) + RIM,
      });
    },
  };
}

/** How far a picture reaches from where its baseline begins, in dots. */
interface Reach {
  readonly left: number;
  readonly right: number;
  readonly up: number;
  readonly down: number;
}

function draw(text: string, font: string, { left, right, up, down }: Reach): TextPicture {
  const width = left + right;
  const height = Math.max(1, up + down);
  const brush = new OffscreenCanvas(width, height).getContext('2d')!;
  brush.fillStyle = '#fff';
  brush.fillRect(0, 0, width, height);
  brush.fillStyle = '#000';
  brush.font = font;
  brush.fillText(text, left, up);
  const { data } = brush.getImageData(0, 0, width, height);
  // Coloured signs come out as light as they look (ITU-R BT.709 weights).
  const grey = Uint8Array.from({ length: width * height }, (_, i) =>
    Math.round(0.2126 * data[4 * i]! + 0.7152 * data[4 * i + 1]! + 0.0722 * data[4 * i + 2]!),
  );
  return { dpi: PICTURE_DPI, width, height, left: left / PICTURE_DPI, up: up / PICTURE_DPI, grey };
}
