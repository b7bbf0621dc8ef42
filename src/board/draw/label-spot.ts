import { innerSpot } from '../../geometry/inner-spot.ts';
import type { Point } from '../../geometry/point.ts';
import { distanceToSegment } from '../../geometry/ring.ts';
import { edgesOf } from '../../geometry/segments.ts';
import type { Patch } from '../../piecing/plan.ts';
import { ShapeCache } from './shape-cache.ts';

/** Where a patch's id stands, and the room around it. Inches. */
export interface LabelSpot {
  readonly at: Point;
  /** Distance to the nearest edge. */
  readonly room: number;
}

const spots = new ShapeCache(([polygon, ...holes]): LabelSpot => {
  const at = innerSpot({ polygon: polygon!, holes });
  const edges = [polygon!, ...holes].flatMap(edgesOf);
  return { at, room: Math.min(...edges.map((edge) => distanceToSegment(at, ...edge))) };
});

/** The inmost spot of a patch, found once for each shape. */
export const labelSpot = ({ polygon, holes }: Pick<Patch, 'polygon' | 'holes'>): LabelSpot =>
  spots.of([polygon, ...holes]);

/** Type sizes in CSS pixels. */
const LARGEST = 16;
const SMALLEST = 9;

/**
 * The type size at which a text fits a circle, or null when it would be too small to read. `widthAtOne` is the
 * text's width at a size of 1; capitals and figures stand about 0.66 of the size high in Source Sans 3.
 */
export function sizeToFit(roomPx: number, widthAtOne: number): number | null {
  const size = roomPx / Math.hypot(widthAtOne / 2, 0.66 / 2);
  return size < SMALLEST ? null : Math.min(LARGEST, size * 0.94);
}
