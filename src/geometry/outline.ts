import { MAX_COORDINATE_IN, TOUCH_IN } from './lattice.ts';
import type { Point, Ring } from './point.ts';
import { cross, distance, distanceToSegment } from './ring.ts';

export type OutlineFault =
  | { readonly kind: 'too-few-corners' | 'no-area'; readonly at: Point }
  | { readonly kind: 'not-a-number' | 'too-far' | 'too-close'; readonly at: Point; readonly corner: number }
  | { readonly kind: 'crosses-itself'; readonly at: Point; readonly corner: number; readonly other: number };

/**
 * Why a ring cannot be the outline of a region, or null when it can: three corners or more, finite, within
 * reach, enclosing an area, no side touching another. `corner` and `other` count from 0 and name the corner a
 * side starts from. Cost: O(n²) in corners, which are few.
 */
export function outlineFault(outline: Ring): OutlineFault | null {
  for (const [corner, point] of outline.entries()) {
    if (!Number.isFinite(point[0]) || !Number.isFinite(point[1]))
      return { kind: 'not-a-number', at: [0, 0], corner };
    if (Math.abs(point[0]) > MAX_COORDINATE_IN || Math.abs(point[1]) > MAX_COORDINATE_IN)
      return { kind: 'too-far', at: point, corner };
  }
  const first = outline[0];
  if (!first || outline.length < 3) return { kind: 'too-few-corners', at: first ?? [0, 0] };
  const at = (i: number): Point => outline[i % outline.length]!;
  for (let i = 0; i < outline.length; i++)
    if (distance(at(i), at(i + 1)) <= TOUCH_IN) return { kind: 'too-close', at: at(i), corner: i };
  const farthest = outline.reduce((far, p) => (distance(first, p) > distance(first, far) ? p : far), first);
  if (outline.every((p) => distanceToLine(p, first, farthest) <= TOUCH_IN))
    return { kind: 'no-area', at: first };
  for (let i = 0; i < outline.length; i++) {
    for (let j = i + 1; j < outline.length; j++) {
      const adjacent = j === i + 1 || (i === 0 && j === outline.length - 1);
      const crossing = adjacent ? foldsBack(at, i, j) : meeting(at(i), at(i + 1), at(j), at(j + 1));
      if (crossing) return { kind: 'crosses-itself', at: crossing, corner: i, other: j };
    }
  }
  return null;
}

const distanceToLine = (p: Point, a: Point, b: Point): number => Math.abs(cross(a, b, p)) / distance(a, b);

/** Two neighbouring sides may share their corner only: a side lying back on the one before it is no outline. */
function foldsBack(at: (i: number) => Point, i: number, j: number): Point | null {
  const [before, corner, after] = j === i + 1 ? [at(i), at(j), at(j + 1)] : [at(j), at(i), at(i + 1)];
  const ahead =
    (after[0] - corner[0]) * (before[0] - corner[0]) + (after[1] - corner[1]) * (before[1] - corner[1]);
  if (ahead <= 0) return null;
  const near =
    distance(corner, before) < distance(corner, after)
      ? distanceToSegment(before, corner, after)
      : distanceToSegment(after, corner, before);
  return near <= TOUCH_IN ? corner : null;
}

function meeting(a: Point, b: Point, c: Point, d: Point): Point | null {
  for (const [p, s, t] of [
    [a, c, d],
    [b, c, d],
    [c, a, b],
    [d, a, b],
  ] as const)
    if (distanceToSegment(p, s, t) <= TOUCH_IN) return p;
  const toA = cross(c, d, a);
  const toB = cross(c, d, b);
  if (toA > 0 === toB > 0 || cross(a, b, c) > 0 === cross(a, b, d) > 0) return null;
  const t = toA / (toA - toB);
  return [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])];
}
