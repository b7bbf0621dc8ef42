import type { Point, Ring, Segment } from './point.ts';
import { nearestOnSegment, shareOfSegment } from './ring.ts';

/** Measures of the pointer against the drawing. Inches in, inches out; nothing here decides what can be sewn. */

export const samePlace = (a: Point, b: Point): boolean => a[0] === b[0] && a[1] === b[1];

export const shifted = (at: Point, by: Point): Point => [at[0] + by[0], at[1] + by[1]];

/** How far along the segment the nearest place to `at` lies: 0 at its start, 1 at its end. */
export const shareAlong = ([from, to]: Segment, at: Point): number => shareOfSegment(at, from, to);

export const along = ([from, to]: Segment, share: number): Point => [
  from[0] + (to[0] - from[0]) * share,
  from[1] + (to[1] - from[1]) * share,
];

export const nearestOn = ([from, to]: Segment, at: Point): Point => nearestOnSegment(at, from, to);

/**
 * Where the endless line through `line` meets `segment`, as shares of both (of `line` unbounded, of `segment`
 * 0 … 1); null when they are parallel or the meeting lies beyond the segment.
 */
export function meeting(
  line: Segment,
  segment: Segment,
): { readonly onLine: number; readonly onSegment: number } | null {
  const [dx, dy] = [line[1][0] - line[0][0], line[1][1] - line[0][1]];
  const [ex, ey] = [segment[1][0] - segment[0][0], segment[1][1] - segment[0][1]];
  const turn = dx * ey - dy * ex;
  // Lines less than a thousandth of a radian apart meet too far away or too vaguely to aim at.
  if (Math.abs(turn) <= 1e-3 * Math.hypot(dx, dy) * Math.hypot(ex, ey)) return null;
  const [gx, gy] = [segment[0][0] - line[0][0], segment[0][1] - line[0][1]];
  const onLine = (gx * ey - gy * ex) / turn;
  const onSegment = (gx * dy - gy * dx) / turn;
  return onSegment < -1e-9 || onSegment > 1 + 1e-9 ? null : { onLine, onSegment };
}

/** Where two segments cross or touch, or null. */
export function crossing(a: Segment, b: Segment): Point | null {
  const met = meeting(a, b);
  return met === null || met.onLine < -1e-9 || met.onLine > 1 + 1e-9 ? null : along(a, met.onLine);
}

/** The edges of a closed outline in turn. */
export const edgesOf = (ring: Ring): readonly Segment[] =>
  ring.map((point, index) => [point, ring[(index + 1) % ring.length]!]);
