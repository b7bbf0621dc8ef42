import { type Area, levelStretches } from './inner-spot.ts';
import type { Segment } from './point.ts';
import { boxOf, cross } from './ring.ts';

/**
 * Area that two areas have in common, in square units of their coordinates. Rings may turn either way.
 *
 * Measured in level slices between the heights where an edge begins, ends or crosses another: within a slice the
 * common width changes evenly, so its width half way up times its height is its exact area. Nothing is built from
 * the pieces, so edges that nearly coincide, on which polygon clipping libraries give up, cost no more than
 * rounding. Cost: O(n m) for crossings and O((n + m + crossings)²) for slices, both small for patches.
 */
export function overlapArea(a: Area, b: Area): number {
  const boxA = boxOf(a.polygon);
  const boxB = boxOf(b.polygon);
  const top = Math.max(boxA.minY, boxB.minY);
  const bottom = Math.min(boxA.maxY, boxB.maxY);
  if (!(top < bottom) || boxA.minX >= boxB.maxX || boxB.minX >= boxA.maxX) return 0;
  const heights = [top, bottom, ...crossingHeights(a, b)];
  for (const ring of [a.polygon, ...a.holes, b.polygon, ...b.holes])
    for (const [, y] of ring) heights.push(y);
  const slices = heights.filter((y) => y >= top && y <= bottom).sort((y, z) => y - z);
  let area = 0;
  for (let i = 1; i < slices.length; i++) {
    const height = slices[i]! - slices[i - 1]!;
    if (height > 0) area += height * commonWidth(a, b, slices[i - 1]! + height / 2);
  }
  return area;
}

function commonWidth(a: Area, b: Area, y: number): number {
  const others = levelStretches(b, y);
  let width = 0;
  for (const [from, to] of levelStretches(a, y)) {
    for (const [otherFrom, otherTo] of others) {
      width += Math.max(0, Math.min(to, otherTo) - Math.max(from, otherFrom));
    }
  }
  return width;
}

/** Heights at which an edge of one area crosses an edge of the other. */
function crossingHeights(a: Area, b: Area): number[] {
  const heights: number[] = [];
  const edgesB = edgesOf(b);
  for (const [p, q] of edgesOf(a)) {
    for (const [r, s] of edgesB) {
      const sideP = cross(r, s, p);
      const sideQ = cross(r, s, q);
      if (sideP > 0 === sideQ > 0 || cross(p, q, r) > 0 === cross(p, q, s) > 0) continue;
      heights.push(p[1] + (sideP / (sideP - sideQ)) * (q[1] - p[1]));
    }
  }
  return heights;
}

const edgesOf = ({ polygon, holes }: Area): Segment[] =>
  [polygon, ...holes].flatMap((ring) => ring.map((from, i): Segment => [from, ring[(i + 1) % ring.length]!]));
