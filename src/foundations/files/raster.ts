import type { Point } from '../../geometry/point.ts';
import { type Mark, PENS, type PenName, type TextMark, type Tone, toned } from '../marks.ts';
import { marksOf, type Sheet } from '../sheet/sheet.ts';
import { outlinesOf } from '../type/outlines.ts';
import type { FullTypeface, TextPicture } from '../type/typeface.ts';

/** What is used of a canvas to draw on; a browser's 2D context has it all. */
export interface Brush {
  fillStyle: unknown;
  strokeStyle: unknown;
  lineWidth: number;
  lineCap: 'butt' | 'round' | 'square';
  lineJoin: 'bevel' | 'miter' | 'round';
  setTransform(a: number, b: number, c: number, d: number, e: number, f: number): void;
  setLineDash(lengths: number[]): void;
  fillRect(x: number, y: number, width: number, height: number): void;
  beginPath(): void;
  closePath(): void;
  moveTo(x: number, y: number): void;
  lineTo(x: number, y: number): void;
  bezierCurveTo(ax: number, ay: number, bx: number, by: number, x: number, y: number): void;
  quadraticCurveTo(ax: number, ay: number, x: number, y: number): void;
  arc(x: number, y: number, radius: number, from: number, to: number): void;
  stroke(): void;
  fill(): void;
}

/**
 * Paints a sheet's marks, as every output does, at so many dots to the inch on white from the upper left corner.
 * Letters are painted by their outlines, so that they are the printed ones whatever fonts there are.
 */
export function paintSheet(brush: Brush, sheet: Sheet, typeface: FullTypeface, dpi: number): void {
  const marks = marksOf(sheet);
  const { tone } = sheet;
  const ink = greyOf(0, tone);
  brush.setTransform(dpi, 0, 0, dpi, 0, 0);
  brush.fillStyle = '#ffffff';
  brush.fillRect(0, 0, sheet.width, sheet.height);
  brush.lineJoin = 'miter';
  for (const mark of marks) {
    if (mark.kind !== 'polygon' || mark.fill === undefined) continue;
    brush.fillStyle = mark.fill;
    brush.beginPath();
    trace(brush, mark);
    brush.fill();
  }
  for (const pen of Object.keys(PENS) as PenName[]) {
    const { width, dash, grey } = PENS[pen];
    if (width === 0) continue;
    const color = greyOf(grey, tone);
    brush.strokeStyle = color;
    brush.fillStyle = color;
    brush.lineWidth = width;
    brush.lineCap = dash.length > 0 ? 'butt' : 'round';
    brush.setLineDash([...dash]);
    for (const mark of marks) {
      if (mark.kind === 'text' || mark.pen !== pen) continue;
      brush.beginPath();
      trace(brush, mark);
      if (mark.kind === 'circle' && mark.filled) brush.fill();
      else brush.stroke();
    }
  }
  brush.fillStyle = ink;
  for (const mark of marks) if (mark.kind === 'text') writeText(brush, mark, typeface, dpi, tone);
}

function greyOf(grey: number, tone: Tone | undefined): string {
  const level = Math.round(255 * toned(grey, tone));
  return `rgb(${level}, ${level}, ${level})`;
}

function trace(brush: Brush, mark: Exclude<Mark, TextMark>): void {
  const follow = ([first, ...rest]: readonly Point[]): void => {
    brush.moveTo(first![0], first![1]);
    for (const [x, y] of rest) brush.lineTo(x, y);
  };
  switch (mark.kind) {
    case 'line':
      follow(mark.points);
      break;
    case 'polygon':
      follow(mark.ring);
      brush.closePath();
      break;
    case 'circle':
      brush.moveTo(mark.at[0] + mark.radius, mark.at[1]);
      brush.arc(mark.at[0], mark.at[1], mark.radius, 0, 2 * Math.PI);
      break;
  }
}

/** A text that comes as a picture, dot by dot. */
function paintPicture(
  brush: Brush,
  { width, height, dpi: own, left, up, grey }: TextPicture,
  at: Point,
  turn: number,
  dpi: number,
  tone: Tone | undefined,
): void {
  const angle = (turn * Math.PI) / 180;
  const [cos, sin] = [dpi * Math.cos(angle), dpi * Math.sin(angle)];
  brush.setTransform(cos, sin, -sin, cos, dpi * at[0], dpi * at[1]);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const level = grey[y * width + x]!;
      if (level > 250) continue;
      brush.fillStyle = greyOf(level / 255, tone);
      brush.fillRect(x / own - left, y / own - up, 1 / own, 1 / own);
    }
  brush.fillStyle = greyOf(0, tone);
  brush.setTransform(dpi, 0, 0, dpi, 0, 0);
}

function writeText(
  brush: Brush,
  { at, turn, face, size, text }: TextMark,
  typeface: FullTypeface,
  dpi: number,
  tone: Tone | undefined,
): void {
  const picture = typeface.picture?.(text, face, size);
  if (picture) {
    paintPicture(brush, picture, at, turn, dpi, tone);
    return;
  }
  const angle = (turn * Math.PI) / 180;
  const [cos, sin] = [dpi * size * Math.cos(angle), dpi * size * Math.sin(angle)];
  brush.setTransform(cos, sin, -sin, cos, dpi * at[0], dpi * at[1]);
  brush.beginPath();
  for (const { kind, points } of outlinesOf(text, face, typeface)) {
    const [[a, b] = [0, 0], [c, d] = [0, 0], [e, f] = [0, 0]] = points;
    if (kind === 'move') brush.moveTo(a, b);
    else if (kind === 'line') brush.lineTo(a, b);
    else if (kind === 'quadratic') brush.quadraticCurveTo(a, b, c, d);
    else if (kind === 'cubic') brush.bezierCurveTo(a, b, c, d, e, f);
    else brush.closePath();
  }
  brush.fill();
  brush.setTransform(dpi, 0, 0, dpi, 0, 0);
}
