import type { Point, Segment } from '../../src/geometry/point.ts';

/** Small plane measuring for the design generators: their own, so that nothing under test makes its own tests. */

/** Nearest multiple of 2^-16 in. */
export const round = (inches: number): number => Math.round(inches * 65536) / 65536;

export const roundPoint = ([x, y]: Point): Point => [round(x), round(y)];

export const apart = (a: Point, b: Point): number => Math.hypot(b[0] - a[0], b[1] - a[1]);

export const lerp = (a: Point, b: Point, t: number): Point => [
  a[0] + (b[0] - a[0]) * t,
  a[1] + (b[1] - a[1]) * t,
];

export const turn = (a: Point, b: Point, c: Point): number =>
  (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);

/** Shoelace area, positive for the turn square [0,0] [1,0] [1,1] [0,1] has. */
export function areaOf(ring: readonly Point[]): number {
  let sum = 0;
  for (let i = 0; i < ring.length; i++) {
    const [x1, y1] = ring[i]!;
    const [x2, y2] = ring[(i + 1) % ring.length]!;
    sum += x1 * y2 - x2 * y1;
  }
  return sum / 2;
}

export function isInside([x, y]: Point, ring: readonly Point[]): boolean {
  let inside = false;
  for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
    const [xi, yi] = ring[i]!;
    const [xj, yj] = ring[j]!;
    if (yi > y !== yj > y && x < ((xj - xi) * (y - yi)) / (yj - yi) + xi) inside = !inside;
  }
  return inside;
}

export function distanceToStretch(p: Point, a: Point, b: Point): number {
  const length = apart(a, b);
  if (length === 0) return apart(p, a);
  const t = Math.max(
    0,
    Math.min(1, ((p[0] - a[0]) * (b[0] - a[0]) + (p[1] - a[1]) * (b[1] - a[1])) / length ** 2),
  );
  return apart(p, lerp(a, b, t));
}

/** Where two stretches cross, each properly; null where they do not. */
export function crossing([a, b]: Segment, [c, d]: Segment): Point | null {
  const sa = turn(c, d, a);
  const sb = turn(c, d, b);
  if (sa * sb >= 0 || turn(a, b, c) * turn(a, b, d) >= 0) return null;
  return lerp(a, b, sa / (sa - sb));
}

/** Angle in radians, 0 to π, between two directions. */
export function angleBetween(u: Point, v: Point): number {
  return Math.abs(Math.atan2(u[0] * v[1] - u[1] * v[0], u[0] * v[0] + u[1] * v[1]));
}

export const direction = (a: Point, b: Point): Point => [b[0] - a[0], b[1] - a[1]];

/** Turned about a centre by radians, clockwise on the screen. */
export function rotated([x, y]: Point, [cx, cy]: Point, radians: number): Point {
  const c = Math.cos(radians);
  const s = Math.sin(radians);
  return [cx + (x - cx) * c - (y - cy) * s, cy + (x - cx) * s + (y - cy) * c];
}
