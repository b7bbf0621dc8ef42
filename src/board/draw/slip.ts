import type { Point } from '../../geometry/point.ts';
import type { ViewSize } from '../camera.ts';
import { INKS } from './inks.ts';
import { FONT, type Pen } from './pen.ts';

/** A glass that stands over a finger: what is told of the place stands at the glass. CSS pixels. */
export interface Glass {
  readonly center: Point;
  readonly radius: number;
}

/** A slip with words beside a spot of the screen, or beside the glass that stands over it. */
export function tell(pen: Pen, text: string, [x, y]: Point, view: ViewSize, glass: Glass | null): void {
  if (glass === null) {
    drawPill(pen, text, x, y, view);
    return;
  }
  const { center, radius } = glass;
  drawPill(pen, text, center[0], center[1], view, radius);
}

/** A dark slip with words beside a spot of the screen, kept inside the view. */
export function drawPill(
  { ctx }: Pen,
  text: string,
  x: number,
  y: number,
  view: ViewSize,
  around: number | null = null,
): void {
  ctx.font = `400 14px ${FONT}`;
  const width = ctx.measureText(text).width + 20;
  const height = 28;
  let left = x + 16;
  let top = y - height - 12;
  if (left + width > view.width - 8) left = x - 16 - width;
  if (top < 8) top = y + 16;
  if (around !== null) {
    left = x - width / 2;
    top = y - around - height - 6;
    if (top < 4) top = y + around + 6;
  }
  // What it tells of may lie outside the view.
  left = Math.max(8, Math.min(left, view.width - 8 - width));
  top = Math.max(8, Math.min(top, view.height - 8 - height));
  ctx.beginPath();
  ctx.roundRect(left, top, width, height, 6);
  ctx.fillStyle = INKS.ink;
  ctx.fill();
  ctx.lineWidth = 1;
  ctx.setLineDash([]);
  ctx.strokeStyle = 'rgb(251 249 243 / 35%)';
  ctx.stroke();
  ctx.fillStyle = INKS.sheet;
  ctx.textAlign = 'left';
  ctx.textBaseline = 'middle';
  ctx.fillText(text, left + 10, top + height / 2 + 0.5);
}
