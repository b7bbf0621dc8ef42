import type { Point, Ring, Segment } from '../../geometry/point.ts';
import { type Camera, toScreen } from '../camera.ts';

/** What all drawing goes through: a plain canvas and the camera. Widths and dashes are CSS pixels. */
export interface Pen {
  readonly ctx: CanvasRenderingContext2D;
  readonly camera: Camera;
}

export const FONT = "'Source Sans 3 Variable', 'Source Sans 3', system-ui, sans-serif";

export function trace({ ctx, camera }: Pen, points: Ring, closed: boolean): void {
  for (let k = 0; k < points.length; k++) {
    const [x, y] = toScreen(camera, points[k]!);
    if (k === 0) ctx.moveTo(x, y);
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
  /** How much wider than its line the halo is, CSS pixels; `HALO` unless told. */
  readonly haloWidth?: number;
}

/** What a round mark is edged with. */
export type Rim = Pick<Stroke, 'color' | 'width'>;

/** How much wider than its line a halo is, CSS pixels. */
const HALO = 2.4;

/** Strokes the present path. Lines are whole before and after. */
export function strokePath({ ctx }: Pen, { color, width, dash, halo, haloWidth = HALO }: Stroke): void {
  if (halo !== undefined) {
    ctx.strokeStyle = halo;
    ctx.lineWidth = width + haloWidth;
    ctx.stroke();
  }
  if (dash !== undefined) ctx.setLineDash(dash as number[]);
  ctx.strokeStyle = color;
  ctx.lineWidth = width;
  ctx.stroke();
  if (dash !== undefined) ctx.setLineDash([]);
}

export function strokeLine(pen: Pen, points: Ring, stroke: Stroke, closed = false): void {
  pen.ctx.beginPath();
  trace(pen, points, closed);
  strokePath(pen, stroke);
}

/** Strokes many straight lines that need not hang together. */
export function strokeLines(pen: Pen, lines: readonly Segment[], { halo, ...stroke }: Stroke): void {
  const { ctx } = pen;
  if (halo !== undefined) {
    // One path for all: halos let things shine through, and where two overlap must not be thicker.
    ctx.beginPath();
    for (const line of lines) trace(pen, line, false);
    strokePath(pen, { ...stroke, color: halo, width: stroke.width + HALO });
  }
  // A path for each: all edges of one path are sorted together, so that a long one costs more than its parts.
  for (const line of lines) strokeLine(pen, line, stroke);
}

/**
 * A round mark at a place of the board, its rim drawn on a circle of the radius. The rim is a disc under a smaller one:
 * a canvas fills two in half the time it takes to stroke one.
 */
export function dot({ ctx, camera }: Pen, at: Point, radius: number, fill: string, rim: Rim): void {
  const [x, y] = toScreen(camera, at);
  disc(ctx, x, y, radius + rim.width / 2, rim.color);
  disc(ctx, x, y, radius - rim.width / 2, fill);
}

function disc(ctx: CanvasRenderingContext2D, x: number, y: number, radius: number, color: string): void {
  ctx.beginPath();
  ctx.arc(x, y, radius, 0, Math.PI * 2);
  ctx.fillStyle = color;
  ctx.fill();
}
