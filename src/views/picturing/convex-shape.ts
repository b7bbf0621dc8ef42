import type { Block } from '../../document/project.ts';
import type { Ring } from '../../geometry/point.ts';
import { boxOf, cross, signedArea } from '../../geometry/ring.ts';
import { cornersOf } from '../../piecing/patch-keys.ts';

/** The outline of a block that a picture can be laid in: from its own upper left corner, clockwise as it is seen. Inches. */
export interface ConvexShape {
  readonly name: string;
  readonly outline: Ring;
  readonly size: readonly [width: number, height: number];
}

/** Null where the outline has dents, or encloses nothing. */
export function convexShape(block: Pick<Block, 'name' | 'outline'> | undefined): ConvexShape | null {
  if (block === undefined || block.outline.length < 3) return null;
  // Where another line ends on a straight side it is no corner, and may be a hair beside it.
  const corners = cornersOf(block.outline);
  const { minX, minY, maxX, maxY } = boxOf(corners);
  const area = signedArea(corners);
  const ring = area < 0 ? corners.toReversed() : corners;
  const hasDents = ring.some(
    (corner, k) =>
      cross(ring[(k + ring.length - 1) % ring.length]!, corner, ring[(k + 1) % ring.length]!) < 0,
  );
  if (area === 0 || hasDents) return null;
  return {
    name: block.name,
    outline: ring.map(([x, y]) => [x - minX, y - minY] as const),
    size: [maxX - minX, maxY - minY],
  };
}
