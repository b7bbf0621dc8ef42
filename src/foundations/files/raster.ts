import type { Point } from '../../geometry/point.ts';
import { type Mark, PENS, type PenName, type TextMark } from '../marks.ts';
import { marksOf, type Sheet } from '../sheet/sheet.ts';
import { fontsOf } from '../type/fonts.ts';
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
    const level = Math.round(255 * grey);
    const color = `rgb(${level}, ${level}, ${level})`;
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
  brush.fillStyle = '#000000';
  for (const mark of marks) if (mark.kind === 'text') writeText(brush, mark, typeface, dpi);
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
): void {
  const angle = (turn * Math.PI) / 180;
  const [cos, sin] = [dpi * Math.cos(angle), dpi * Math.sin(angle)];
  brush.setTransform(cos, sin, -sin, cos, dpi * at[0], dpi * at[1]);
  for (let y = 0; y < height; y++)
    for (let x = 0; x < width; x++) {
      const level = grey[y * width + x]!;
      if (level > 250) continue;
      brush.fillStyle = `rgb(${level}, ${level}, ${level})`;
      brush.fillRect(x / own - left, y / own - up, 1 / own, 1 / own);
    }
  brush.fillStyle = '#000000';
  brush.setTransform(dpi, 0, 0, dpi, 0, 0);
}

function writeText(
  brush: Brush,
  { at, turn, face, size, text }: TextMark,
  typeface: FullTypeface,
  dpi: number,
): void {
  const picture = typeface.picture?.(text, face, size);
  if (picture) {
    paintPicture(brush, picture, at, turn, dpi);
    return;
  }
  const font = fontsOf(typeface)[face];
  const scale = size / font.unitsPerEm;
  const angle = (turn * Math.PI) / 180;
  const [cos, sin] = [dpi * scale * Math.cos(angle), dpi * scale * Math.sin(angle)];
  // Font units grow upward.
  brush.setTransform(cos, sin, sin, -cos, dpi * at[0], dpi * at[1]);
  let x = 0;
  brush.beginPath();
  // Word by word with the blank that follows, as text is measured and as the PDF is set.
  for (const word of text.match(/[^ ]* ?/g) ?? []) {
    if (word === '') continue;
    const { glyphs, positions } = font.layout(word);
    glyphs.forEach(({ path }, i) => {
      const { xAdvance, xOffset, yOffset } = positions[i]!;
      const [dx, dy] = [x + xOffset, yOffset];
      for (const { command, args } of path.commands) {
        const [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0] = args;
        if (command === 'moveTo') brush.moveTo(dx + a, dy + b);
        else if (command === 'lineTo') brush.lineTo(dx + a, dy + b);
        else if (command === 'quadraticCurveTo') brush.quadraticCurveTo(dx + a, dy + b, dx + c, dy + d);
        else if (command === 'bezierCurveTo')
          brush.bezierCurveTo(dx + a, dy + b, dx + c, dy + d, dx + e, dy + f);
        else brush.closePath();
      }
      x += xAdvance;
    });
  }
  brush.fill();
  brush.setTransform(dpi, 0, 0, dpi, 0, 0);
}
