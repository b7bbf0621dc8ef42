import type { Point, Ring } from '../../geometry/point.ts';

/** A sharp corner's inner point goes no farther in than this many times the distance. */
const FARTHEST = 3;

/**
 * A line running beside an outline, inside it, at a distance in the outline's own unit. The outline turns so that
 * its shoelace area is positive. Only for drawing: where the outline is narrower than twice the distance the line
 * crosses itself, and whoever draws it clips it to the outline.
 */
export function insetRing(ring: Ring, by: number): readonly Point[] {
  const normals = ring.map(([x, y], index): Point => {
    const [nextX, nextY] = ring[(index + 1) % ring.length]!;
    const length = Math.hypot(nextX - x, nextY - y) || 1;
    return [(y - nextY) / length, (nextX - x) / length];
  });
  return ring.map(([x, y], index): Point => {
    const [ax, ay] = normals[(index + ring.length - 1) % ring.length]!;
    const [bx, by_] = normals[index]!;
    const [mx, my] = [ax + bx, ay + by_];
    // The bisector reaches both shifted edges at by / cos(half the turn) = 2 by / |a + b|², along a + b.
    const reach = Math.min(
      (2 * by) / Math.max(mx * mx + my * my, 1e-9),
      (FARTHEST * by) / Math.max(Math.hypot(mx, my), 1e-9),
    );
    return [x + mx * reach, y + my * reach];
  });
}
