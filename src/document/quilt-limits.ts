import { TOUCH_IN } from '../geometry/lattice.ts';
import { outlineFault } from '../geometry/outline.ts';
import type { Point, Ring } from '../geometry/point.ts';

/** What a quilt may hold. */
export const PLACES_PER_QUILT = 2_000;

/** Longest side of a place, and of the whole quilt, inches. */
export const MAX_QUILT_IN = 500;

/** Do corners make an outline that lies in a box of a size from (0, 0)? */
export const isPlainShape = (corners: Ring, [width, height]: Point): boolean =>
  outlineFault(corners) === null &&
  corners.every(
    ([x, y]) => x >= -TOUCH_IN && y >= -TOUCH_IN && x <= width + TOUCH_IN && y <= height + TOUCH_IN,
  );
