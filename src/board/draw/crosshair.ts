import type { Crosshair } from '../board-state.ts';
import { toScreen, type ViewSize } from '../camera.ts';
import { INKS } from './inks.ts';
import { type Pen, strokePath } from './pen.ts';
import { drawPill } from './slip.ts';

/** The keyboard's pointer: long hairs, so that it is found at a glance. `isTold`: a mark says already what is there. */
export function drawCrosshair(pen: Pen, { at, words }: Crosshair, view: ViewSize, isTold: boolean): void {
  const [x, y] = toScreen(pen.camera, at);
  const { ctx } = pen;
  ctx.lineCap = 'butt';
  ctx.beginPath();
  ctx.moveTo(x, 0);
  ctx.lineTo(x, y - 10);
  ctx.moveTo(x, y + 10);
  ctx.lineTo(x, view.height);
  ctx.moveTo(0, y);
  ctx.lineTo(x - 10, y);
  ctx.moveTo(x + 10, y);
  ctx.lineTo(view.width, y);
  strokePath(pen, { color: INKS.indigo, width: 1, dash: [5, 4], halo: 'rgb(251 249 243 / 55%)' });
  if (!isTold) drawPill(pen, words, x, y, view);
}
