import type { Area } from '../../geometry/inner-spot.ts';
import type { Point, Segment } from '../../geometry/point.ts';
import { edgesOf } from '../../geometry/segments.ts';
import { stretchesInside } from './inside.ts';

export interface PolygonWish {
  readonly middle: Point;
  readonly corners: number;
  /** Twice the distance of its corners from the middle, inches. */
  readonly across: number;
  /** Where a corner lies from the middle, degrees: 0 to the right, against the clock. */
  readonly first: number;
}

/** The sides of a shape with equal sides and angles, as far as they lie within an area. */
export function polygonInside(
  area: Area,
  { middle, corners, across, first }: PolygonWish,
): readonly Segment[] {
  const ring = Array.from({ length: corners }, (_, k): Point => {
    const angle = ((first + (360 * k) / corners) * Math.PI) / 180;
    return [middle[0] + (across / 2) * Math.cos(angle), middle[1] - (across / 2) * Math.sin(angle)];
  });
  return edgesOf(ring).flatMap((side) => stretchesInside(area.polygon, side, area.holes));
}
