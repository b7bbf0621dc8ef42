import { STRAIGHT_IN } from '../../geometry/lattice.ts';
import type { Point, Segment } from '../../geometry/point.ts';
import { distance, distanceToSegment, farthestPair } from '../../geometry/ring.ts';

/**
 * As far apart as two spots may be and count as one. Where lines all but meet, spots within the width of a line are made
 * one, and the end of a seam takes such a spot to it in turn.
 */
export const ONE_SPOT_IN = STRAIGHT_IN + 2 ** -15;

/** The two farthest ends of some edges. */
export const spanOf = (edges: readonly Segment[]): Segment =>
  edges.length === 1 ? edges[0]! : farthestPair(edges.flat());

/** Have both the same ends, whichever comes first? */
export function isSameStretch([a, b]: Segment, [c, d]: Segment): boolean {
  const near = (p: Point, q: Point): boolean => distance(p, q) <= ONE_SPOT_IN;
  return (near(a, c) && near(b, d)) || (near(a, d) && near(b, c));
}

export const liesOn = (at: Point, [a, b]: Segment): boolean => distanceToSegment(at, a, b) <= ONE_SPOT_IN;

/** How far along a stretch a spot lies, in inches from its first end. */
export const along = ([x, y]: Point, [a, b]: Segment): number =>
  ((x - a[0]) * (b[0] - a[0]) + (y - a[1]) * (b[1] - a[1])) / distance(a, b);

/**
 * Of the stretches of a seam, is this the one that some spots lie on, or one of those they lie on alike? Round the tip
 * of a sliver two stretches run within the width of a line of each other.
 */
export function isNearest(stretch: Segment, stretches: readonly Segment[], spots: readonly Point[]): boolean {
  if (!spots.every((at) => liesOn(at, stretch))) return false;
  if (stretches.length === 1) return true;
  const off = ([a, b]: Segment): number => spots.reduce((sum, at) => sum + distanceToSegment(at, a, b), 0);
  const its = off(stretch);
  return stretches.every((other) => its <= off(other) + 2 ** -15);
}
