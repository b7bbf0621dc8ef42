import polylabel from 'polylabel';
import { snapPoint } from './lattice.ts';
import type { Point, Ring } from './point.ts';
import { boxOf, contains } from './ring.ts';

/** A closed area: an outer ring, and the rings of its holes. */
export interface Area {
  readonly polygon: Ring;
  readonly holes: readonly Ring[];
}

/** Closeness of the search for the inmost spot, as a share of the area's shorter side. */
const SHARE = 1 / 100;

/**
 * The spot of an area farthest from all its edges, to within a hundredth of its shorter side: where a label or a
 * dab of paint sits best. In a sliver, the middle of its widest level stretch. Inches in and out, on the lattice wherever the lattice has a point inside the area.
 * An area without any inside gives a point of its middle height. Source of the search: polylabel's quadtree.
 */
export function innerSpot(area: Area): Point {
  const spot = searched(area) ?? middleOfWidest(area);
  const snapped = snapPoint(spot);
  return holdsPoint(area, snapped) ? snapped : spot;
}

/** Longer and thinner than this, and the search would begin with thousands of squares side by side. */
const LONGEST_SHARE = 500;

/** The quadtree search, finer where the area is a sliver that the first pass steps over; null when it finds no inside. */
function searched({ polygon, holes }: Area): Point | null {
  const { minX, minY, maxX, maxY } = boxOf(polygon);
  const shorter = Math.min(maxX - minX, maxY - minY);
  const longer = Math.max(maxX - minX, maxY - minY);
  if (!(shorter * LONGEST_SHARE > longer)) return null;
  for (const share of [SHARE, SHARE / 16]) {
    const found = polylabel([polygon, ...holes], shorter * share);
    if (found.distance > 0) return [found[0], found[1]];
  }
  return null;
}

/** Middle of the widest level stretch inside the area, taken half way between each two heights of its corners. */
function middleOfWidest(area: Area): Point {
  const heights = [...new Set([area.polygon, ...area.holes].flat().map(([, y]) => y))].sort((a, b) => a - b);
  let best: Point = area.polygon[0] ?? [0, 0];
  let widest = 0;
  for (let i = 1; i < heights.length; i++) {
    const y = (heights[i - 1]! + heights[i]!) / 2;
    for (const [from, to] of levelStretches(area, y)) {
      if (to - from <= widest) continue;
      widest = to - from;
      best = [(from + to) / 2, y];
    }
  }
  return best;
}

/**
 * The stretches of the level line at height `y` that lie inside an area (even-odd), from left to right, as pairs
 * of x. `y` should not be the height of a corner.
 */
export function levelStretches({ polygon, holes }: Area, y: number): readonly (readonly [number, number])[] {
  const crossings: number[] = [];
  for (const ring of [polygon, ...holes]) {
    for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
      const [ax, ay] = ring[j]!;
      const [bx, by] = ring[i]!;
      if (ay > y !== by > y) crossings.push(ax + ((y - ay) / (by - ay)) * (bx - ax));
    }
  }
  crossings.sort((a, b) => a - b);
  const stretches: [number, number][] = [];
  for (let i = 1; i < crossings.length; i += 2) stretches.push([crossings[i - 1]!, crossings[i]!]);
  return stretches;
}

/** Whether a point lies inside an area and in none of its holes. On an edge it may be told either way. */
export function holdsPoint({ polygon, holes }: Area, point: Point): boolean {
  return contains(polygon, point) && !holes.some((hole) => contains(hole, point));
}
