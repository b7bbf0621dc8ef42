import type { Point, Ring } from '../geometry/point.ts';
import { type GrownPatch, reachOfCloth, reachOfPatch } from './grown-patch.ts';

/** One side of a piece of cloth that lies over a patch. */
export interface Margin {
  /** Index of the corner the side starts from. */
  readonly side: number;
  /** Inches of cloth between the patch and this side where they come nearest; at least the allowance is wanted. */
  readonly beyond: number;
  /** Inches by which the side falls short of the patch grown by the allowance; 0 where it covers. */
  readonly missing: number;
  /** The corner of the patch that comes nearest. */
  readonly at: Point;
}

/** What counts as covered: a thousandth of the width of a thread. */
const COVERED_IN = 1e-6;

/**
 * How far each side of a convex piece lies beyond the patch under it. Ring: positive shoelace area, inches, in the
 * frame of the patch. The piece covers the grown patch where no side is missing anything: both are compared with the
 * half-plane of each side, and the cloth is all of them together.
 */
export function marginsOf(shape: Ring, grown: GrownPatch): readonly Margin[] {
  return shape.map((a, side) => {
    const b = shape[(side + 1) % shape.length]!;
    const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
    const normal: Point = [(b[1] - a[1]) / length, (a[0] - b[0]) / length];
    const reach = a[0] * normal[0] + a[1] * normal[1];
    const short = reachOfCloth(grown, normal, 0) - reach;
    const nearest = grown.corners.reduce((far, p) =>
      p[0] * normal[0] + p[1] * normal[1] > far[0] * normal[0] + far[1] * normal[1] + COVERED_IN ? p : far,
    );
    return {
      side,
      beyond: reach - reachOfPatch(grown, normal),
      missing: short > COVERED_IN ? short : 0,
      at: nearest,
    };
  });
}

export const covers = (shape: Ring, grown: GrownPatch): boolean =>
  marginsOf(shape, grown).every(({ missing }) => missing === 0);
