import { STRAIGHT_IN } from './lattice.ts';
import type { Point, Segment } from './point.ts';
import { distance, distanceToSegment, farthestPair } from './ring.ts';

/** Do the edges, in any order, make one straight and unbroken stretch? */
export function isOneStretch(edges: readonly Segment[]): boolean {
  if (edges.length === 0) return false;
  // One edge alone is one stretch, if it has a length at all.
  if (edges.length === 1) return distance(...edges[0]!) > 0;
  const points = edges.flat();
  const [a, b] = farthestPair(points);
  if (points.some((p) => distanceToSegment(p, a, b) > STRAIGHT_IN)) return false;
  // Straight: then it is unbroken when the edges fill the whole length, none lying on another.
  const length = distance(a, b);
  const along = (p: Point): number =>
    ((p[0] - a[0]) * (b[0] - a[0]) + (p[1] - a[1]) * (b[1] - a[1])) / length;
  const intervals = edges
    .map(([p, q]) => [Math.min(along(p), along(q)), Math.max(along(p), along(q))] as const)
    .sort((p, q) => p[0] - q[0]);
  let reached = 0;
  for (const [start, end] of intervals) {
    const twice = Math.min(reached, end) - start;
    if (start - reached > STRAIGHT_IN || twice > STRAIGHT_IN) return false;
    reached = Math.max(reached, end);
  }
  return Math.abs(reached - length) <= STRAIGHT_IN;
}
