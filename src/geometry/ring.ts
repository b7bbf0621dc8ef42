import type { Point, Ring } from './point.ts';

/**
 * Twice the signed area of the triangle a, b, c: positive when the turn a → b → c has the sign of a positive
 * shoelace area. Exact in sign for lattice points within 1,000 in of each other (see `lattice.ts`).
 */
export function cross(a: Point, b: Point, c: Point): number {
  return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
}

/** Shoelace area in square inches; positive for the turn every face and section of the project has. */
export function signedArea(ring: Ring): number {
  const origin = ring[0];
  if (!origin) return 0;
  let twice = 0;
  for (let i = 1; i + 1 < ring.length; i++) twice += cross(origin, ring[i]!, ring[i + 1]!);
  return twice / 2;
}

/** Centre of area. For a ring of no area, the middle of its corners. */
export function centroid(ring: Ring): Point {
  const origin = ring[0]!;
  let area = 0;
  let x = 0;
  let y = 0;
  for (let i = 1; i + 1 < ring.length; i++) {
    const b = ring[i]!;
    const c = ring[i + 1]!;
    const weight = cross(origin, b, c);
    area += weight;
    x += weight * (b[0] + c[0] - 2 * origin[0]);
    y += weight * (b[1] + c[1] - 2 * origin[1]);
  }
  if (area === 0) {
    const sum = ring.reduce<Point>((s, p) => [s[0] + p[0], s[1] + p[1]], [0, 0]);
    return [sum[0] / ring.length, sum[1] / ring.length];
  }
  return [origin[0] + x / (3 * area), origin[1] + y / (3 * area)];
}

/** Is the point inside the ring? On the boundary the answer is either. Cost: O(corners). */
export function contains(ring: Ring, [x, y]: Point): boolean {
  let inside = false;
  for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
    const a = ring[i]!;
    const b = ring[j]!;
    if (a[1] > y !== b[1] > y && x < ((b[0] - a[0]) * (y - a[1])) / (b[1] - a[1]) + a[0]) inside = !inside;
  }
  return inside;
}

/** The length of a vector, many times quicker than `Math.hypot`, which also minds numbers far out of any drawing. */
export const lengthOf = (dx: number, dy: number): number => Math.sqrt(dx * dx + dy * dy);

export function distance(a: Point, b: Point): number {
  return lengthOf(b[0] - a[0], b[1] - a[1]);
}

/** Distance from a point to a straight stretch, inches. */
export function distanceToSegment(p: Point, a: Point, b: Point): number {
  const dx = b[0] - a[0];
  const dy = b[1] - a[1];
  const t = shareOfSegment(p, a, b);
  return lengthOf(p[0] - a[0] - t * dx, p[1] - a[1] - t * dy);
}

/** The place of the segment from `a` to `b` nearest to `p`. */
export function nearestOnSegment(p: Point, a: Point, b: Point): Point {
  const t = shareOfSegment(p, a, b);
  return [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])];
}

/** How far along the segment from `a` to `b` the nearest place to `p` lies: 0 at `a`, 1 at `b`. */
export function shareOfSegment(p: Point, a: Point, b: Point): number {
  const dx = b[0] - a[0];
  const dy = b[1] - a[1];
  const length2 = dx * dx + dy * dy;
  return length2 === 0 ? 0 : Math.max(0, Math.min(1, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / length2));
}

export interface Box {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

/** Smallest upright box around the points. Empty input gives an inverted infinite box. */
export function boxOf(points: Iterable<Point>): Box {
  let minX = Number.POSITIVE_INFINITY;
  let minY = Number.POSITIVE_INFINITY;
  let maxX = Number.NEGATIVE_INFINITY;
  let maxY = Number.NEGATIVE_INFINITY;
  for (const [x, y] of points) {
    if (x < minX) minX = x;
    if (y < minY) minY = y;
    if (x > maxX) maxX = x;
    if (y > maxY) maxY = y;
  }
  return { minX, minY, maxX, maxY };
}

export const middle = (a: Point, b: Point): Point => [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];

/** The two points farthest from each other. Cost: O(points squared), little more than a multiplication each. */
export function farthestPair(points: readonly Point[]): [Point, Point] {
  let [a, b] = [points[0]!, points[1]!];
  let most = -1;
  for (let i = 0; i < points.length; i++)
    for (let j = i + 1; j < points.length; j++) {
      const dx = points[i]![0] - points[j]![0];
      const dy = points[i]![1] - points[j]![1];
      const apart = dx * dx + dy * dy;
      if (apart <= most) continue;
      most = apart;
      [a, b] = [points[i]!, points[j]!];
    }
  return [a, b];
}
