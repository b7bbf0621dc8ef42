import type { Segment } from '../../geometry/point.ts';
import { toScreen } from '../camera.ts';
import { type Pen, type Stroke, strokePath } from './pen.ts';

/** A line with a filled head at its second end. Sizes in CSS pixels; a short line has a small head. */
export function drawArrow(pen: Pen, [from, to]: Segment, stroke: Stroke, headPx = 16): void {
  const { ctx, camera } = pen;
  const [ax, ay] = toScreen(camera, from);
  const [bx, by] = toScreen(camera, to);
  const length = Math.hypot(bx - ax, by - ay);
  if (length < 1) return;
  const head = Math.min(headPx, length * 0.6);
  const [ux, uy] = [(bx - ax) / length, (by - ay) / length];
  const [nx, ny] = [bx - ux * head, by - uy * head];
  ctx.beginPath();
  ctx.moveTo(ax, ay);
  ctx.lineTo(nx, ny);
  strokePath(pen, stroke);
  ctx.beginPath();
  ctx.moveTo(bx, by);
  ctx.lineTo(nx - uy * head * 0.48, ny + ux * head * 0.48);
  ctx.lineTo(nx + uy * head * 0.48, ny - ux * head * 0.48);
  ctx.closePath();
  if (stroke.halo !== undefined) {
    ctx.lineWidth = 2.4;
    ctx.lineJoin = 'round';
    ctx.strokeStyle = stroke.halo;
    ctx.stroke();
  }
  ctx.fillStyle = stroke.color;
  ctx.fill();
}
