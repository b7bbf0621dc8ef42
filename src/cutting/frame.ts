import type { Point, Ring, Segment } from '../geometry/point.ts';
import { signedArea } from '../geometry/ring.ts';
import { type GrownPatch, reachOfCloth } from './grown-patch.ts';

/** Two directions at right angles by which a piece is laid. */
export interface Frame {
  /** Along the seam, or the grain. */
  readonly u: Point;
  /** Across: into the patch, where it is sewn along a seam. */
  readonly v: Point;
  /** How far from the origin the edge of the cloth past the seam lies, along -v; null where there is no seam. */
  readonly past: number | null;
}

export const LEVEL: Frame = { u: [1, 0], v: [0, 1], past: null };

/**
 * The frame along a seam: cloth lies with its edge past the seam by the allowance. Where a corner of the patch lies
 * behind the line of its seam (an inward corner, or a seam straight but for the width of a line) by so much more.
 */
export function seamFrame(grown: GrownPatch, seam: Segment): Frame {
  const [a, b] = seam;
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  const u: Point = [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
  const across: Point = [-u[1], u[0]];
  const side = sideOf(grown.corners, a, u, across);
  const v: Point = side > 0 ? across : [-across[0], -across[1]];
  return { u, v, past: reachOfCloth(grown, [-v[0], -v[1]], 0) };
}

/** The frame along a direction, without a seam. */
export function frameAlong([dx, dy]: Point): Frame {
  const length = Math.hypot(dx, dy);
  const u: Point = [dx / length, dy / length];
  return { u, v: [-u[1], u[0]], past: null };
}

/** On which side of a seam its patch lies: the sign of the larger part of its area. */
function sideOf(ring: Ring, [ax, ay]: Point, u: Point, across: Point): number {
  const local = ring.map(
    ([x, y]): Point => [(x - ax) * u[0] + (y - ay) * u[1], (x - ax) * across[0] + (y - ay) * across[1]],
  );
  const upper = signedArea(local.map(([s, t]) => [s, Math.max(0, t)]));
  const lower = signedArea(local.map(([s, t]) => [s, Math.min(0, t)]));
  return Math.abs(upper) - Math.abs(lower);
}

export const opposite = ([x, y]: Point): Point => [-x, -y];

export const between = (a: Point, b: Point): Point => [
  (a[0] + b[0]) * Math.SQRT1_2,
  (a[1] + b[1]) * Math.SQRT1_2,
];

/** Corners told along two directions, as a ring of positive area. */
export function ringIn(i: Point, j: Point, corners: readonly Point[]): Ring {
  const ring = corners.map(([a, b]): Point => [a * i[0] + b * j[0], a * i[1] + b * j[1]]);
  return signedArea(ring) < 0 ? ring.reverse() : ring;
}
