import type { Point } from '../../geometry/point.ts';
import type { PenName, TextMark } from '../marks.ts';
import { marksOf, type Sheet } from '../sheet/sheet.ts';
import { outlinesOf } from '../type/outlines.ts';
import type { FullTypeface, TextPicture } from '../type/typeface.ts';
import { drawingOf, escaped, framed, units } from './svg.ts';

/** What a cutting machine does with a line. */
export type Layer = 'cut' | 'score' | 'draw';

/** Trim lines are cut, lines to fold and sew on are scored; all else, with every text, is drawn. */
export const layerOf = (pen: PenName): Layer => {
  switch (pen) {
    case 'trim':
    case 'tile-trim':
    case 'cut-apart':
      return 'cut';
    case 'seam':
    case 'edge':
      return 'score';
    default:
      return 'draw';
  }
};

/**
 * One sheet as a file of its own, for any program and for cutting machines: the drawing of `toSvg` in three named
 * groups, `cut`, `score` and `draw`. Lines to cut are whole, since a machine would cut every dash. Letters are their
 * outlines, so that no machine needs the typeface.
 */
export function toLayeredSvg(sheet: Sheet, typeface: FullTypeface): string {
  const marks = marksOf(sheet);
  const layers = (['cut', 'score', 'draw'] as const).map((layer) => {
    const own = marks.filter((mark) => layerOf(mark.kind === 'text' ? 'rule' : mark.pen) === layer);
    return `<g id="${layer}">${drawingOf(own, layer === 'cut', (mark) => outlinedText(mark, typeface), sheet.tone)}</g>`;
  });
  return framed(sheet, layers.join(''));
}

/** A text as one filled path; what it says stands beside it for whoever cannot see it. */
function outlinedText(mark: TextMark, typeface: FullTypeface): string {
  const { at, turn, face, size, text } = mark;
  const angle = (turn * Math.PI) / 180;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const place = ([x, y]: Point): string =>
    `${units(at[0] + x * cos - y * sin)} ${units(at[1] + x * sin + y * cos)}`;
  const picture = typeface.picture?.(text, face, size);
  const d = picture
    ? dotsOf(picture, place)
    : outlinesOf(text, face, typeface)
        .map(
          ({ kind, points }) => STROKES[kind] + points.map(([x, y]) => place([size * x, size * y])).join(' '),
        )
        .join('');
  return d === '' ? '' : `<path role="img" aria-label="${escaped(text)}" d="${d}"/>`;
}

const STROKES = { move: 'M', line: 'L', quadratic: 'Q', cubic: 'C', close: 'Z' } as const;

/** The dark dots of a text that comes as a picture, row by row, those side by side in one box. */
function dotsOf(
  { width, height, dpi, left, up, grey }: TextPicture,
  place: (point: Point) => string,
): string {
  const boxes: string[] = [];
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const from = x;
      while (x < width && grey[y * width + x]! < 128) x++;
      if (x === from) continue;
      const [x0, x1, y0, y1] = [from / dpi - left, x / dpi - left, y / dpi - up, (y + 1) / dpi - up];
      boxes.push(`M${place([x0, y0])}L${place([x1, y0])} ${place([x1, y1])} ${place([x0, y1])}Z`);
    }
  return boxes.join('');
}
