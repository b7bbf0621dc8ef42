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

type Shape = Pick<Patch, 'polygon' | 'holes'>;

const spots = new WeakMap<Ring, LabelSpot>();

/**
 * The spots of shapes seen lately, by a number made of their corners: a plan that comes from elsewhere brings new
 * rings for the same patches, and while a cut is dragged all but a few stay as they are.
 */
let lately = new Map<number, { readonly shape: Shape; readonly spot: LabelSpot }>();
let before = lately;

/** So many shapes are remembered, and as many from before them. */
const MOST_SHAPES = 4000;

/** The inmost spot of a patch, found once for each shape. */
export function labelSpot(patch: Patch): LabelSpot {
  const known = spots.get(patch.polygon);
  if (known !== undefined) return known;
  const key = keyOf(patch);
  const seen = lately.get(key) ?? before.get(key);
  const spot = seen !== undefined && isSameShape(seen.shape, patch) ? seen.spot : foundSpot(patch);
  if (lately.size >= MOST_SHAPES) {
    before = lately;
    lately = new Map();
  }
  lately.set(key, { shape: { polygon: patch.polygon, holes: patch.holes }, spot });
  spots.set(patch.polygon, spot);
  return spot;
}

const ringsOf = ({ polygon, holes }: Shape): readonly Ring[] => [polygon, ...holes];

function keyOf(shape: Shape): number {
  let key = 0;
  for (const ring of ringsOf(shape)) for (const [x, y] of ring) key = (key * 31 + x * 7919 + y) % 1e9;
  return key;
}

const isSameShape = (a: Shape, b: Shape): boolean =>
  a.holes.length === b.holes.length &&
  ringsOf(a).every((ring, k) => isSameRing(ring, k === 0 ? b.polygon : b.holes[k - 1]!));

const isSameRing = (a: Ring, b: Ring): boolean =>
  a.length === b.length && a.every(([x, y], k) => x === b[k]![0] && y === b[k]![1]);

function foundSpot(patch: Shape): LabelSpot {
  const at = innerSpot(patch);
  const edges = ringsOf(patch).flatMap(edgesOf);
  return { at, room: Math.min(...edges.map((edge) => distanceToSegment(at, ...edge))) };
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
