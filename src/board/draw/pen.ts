import type { Point, Ring, Segment } from '../../geometry/point.ts';
import { type Camera, toScreen } from '../camera.ts';

/** What all drawing goes through: a plain canvas and the camera. Widths and dashes are CSS pixels. */
export interface Pen {
  readonly ctx: CanvasRenderingContext2D;
  readonly camera: Camera;
}

export const FONT = "'Source Sans 3 Variable', 'Source Sans 3', system-ui, sans-serif";

export function trace({ ctx, camera }: Pen, points: Ring, closed: boolean): void {
  for (const [index, point] of points.entries()) {
    const [x, y] = toScreen(camera, point);
    if (index === 0) ctx.moveTo(x, y);
    else ctx.lineTo(x, y);
  }
  if (closed) ctx.closePath();
}

export interface Stroke {
  readonly color: string;
  readonly width: number;
  readonly dash?: readonly number[];
  /** Colour of a wider line beneath, so that the stroke shows on any fabric. */
  readonly halo?: string;
}

/** How much wider than its line a halo is, CSS pixels. */
const HALO = 2.4;

/** Strokes the present path. */
export function strokePath({ ctx }: Pen, { color, width, dash, halo }: Stroke): void {
  if (halo !== undefined) {
    ctx.setLineDash([]);
    ctx.strokeStyle = halo;
    ctx.lineWidth = width + HALO;
    ctx.stroke();
  }
  ctx.setLineDash(dash === undefined ? [] : [...dash]);
  ctx.strokeStyle = color;
  ctx.lineWidth = width;
  ctx.stroke();
  ctx.setLineDash([]);
}

export function strokeLine(pen: Pen, points: Ring, stroke: Stroke, closed = false): void {
  pen.ctx.beginPath();
  trace(pen, points, closed);
  strokePath(pen, stroke);
}

/** Strokes of one path; a longer one costs more than its parts, since all its edges are sorted together. */
const LINES_A_PATH = 16;

/** Strokes many straight lines that need not hang together. */
export function strokeLines(pen: Pen, lines: readonly Segment[], { halo, ...stroke }: Stroke): void {
  const { ctx } = pen;
  if (halo !== undefined) {
    // One path for all: halos let things shine through, and where two overlap must not be thicker.
    ctx.beginPath();
    for (const line of lines) trace(pen, line, false);
    strokePath(pen, { ...stroke, color: halo, width: stroke.width + HALO });
  }
  for (let k = 0; k < lines.length; k += LINES_A_PATH) {
    ctx.beginPath();
    for (const line of lines.slice(k, k + LINES_A_PATH)) trace(pen, line, false);
    strokePath(pen, stroke);
  }
}

/** A round mark at a place of the board. */
export function dot(pen: Pen, at: Point, radius: number, fill: string, stroke?: Stroke): void {
  const [x, y] = toScreen(pen.camera, at);
  pen.ctx.beginPath();
  pen.ctx.arc(x, y, radius, 0, Math.PI * 2);
  pen.ctx.fillStyle = fill;
  pen.ctx.fill();
  if (stroke !== undefined) strokePath(pen, stroke);
}
