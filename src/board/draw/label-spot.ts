import { innerSpot } from '../../geometry/inner-spot.ts';
import type { Point, Ring } from '../../geometry/point.ts';
import { distanceToSegment } from '../../geometry/ring.ts';
import type { Patch } from '../../piecing/plan.ts';
import { edgesOf } from '../nearness.ts';

/** Where a patch's id stands, and the room around it. Inches. */
export interface LabelSpot {
  readonly at: Point;
  /** Distance to the nearest edge. */
  readonly room: number;
}

const spots = new WeakMap<Ring, LabelSpot>();

/** The inmost spot of a patch, found once for each polygon. */
export function labelSpot(patch: Patch): LabelSpot {
  const known = spots.get(patch.polygon);
  if (known !== undefined) return known;
  const at = innerSpot(patch);
  const edges = [patch.polygon, ...patch.holes].flatMap(edgesOf);
  const spot = { at, room: Math.min(...edges.map((edge) => distanceToSegment(at, ...edge))) };
  spots.set(patch.polygon, spot);
  return spot;
}

/** Type sizes in CSS pixels. */
const LARGEST = 16;
const SMALLEST = 8;

/**
 * The type size at which a text fits a circle, or null when it would be too small to read. `widthAtOne` is the
 * text's width at a size of 1; capitals and figures stand about 0.66 of the size high in Source Sans 3.
 */
export function sizeToFit(roomPx: number, widthAtOne: number): number | null {
  const size = roomPx / Math.hypot(widthAtOne / 2, 0.66 / 2);
  return size < SMALLEST ? null : Math.min(LARGEST, size * 0.94);
}
