import type { Point, Ring, Segment } from '../../geometry/point.ts';
import { contains, distance, middle } from '../../geometry/ring.ts';
import { along, edgesOf, meeting } from '../../geometry/segments.ts';

/** Parts of lines that lie inside an outline. Inches. */

/** Stretches shorter than this are none: a 64th of an inch. */
const LEAST_IN = 1 / 64;

/** The stretches of a line within a ring and beside its holes, in turn along the line. */
export function stretchesInside(ring: Ring, line: Segment, holes: readonly Ring[] = []): readonly Segment[] {
  const shares = [0, 1];
  for (const edge of [ring, ...holes].flatMap(edgesOf)) {
    const met = meeting(line, edge);
    if (met !== null && met.onLine > 0 && met.onLine < 1) shares.push(met.onLine);
  }
  shares.sort((a, b) => a - b);
  const stretches: Segment[] = [];
  let open: Point | null = null;
  for (let index = 0; index + 1 < shares.length; index++) {
    const [from, to] = [along(line, shares[index]!), along(line, shares[index + 1]!)];
    const mid = middle(from, to);
    const isInside = contains(ring, mid) && !holes.some((hole) => contains(hole, mid));
    if (isInside) open ??= from;
    if (open !== null && (!isInside || index + 2 === shares.length)) {
      const end = isInside ? to : from;
      if (distance(open, end) >= LEAST_IN) stretches.push([open, end]);
      open = null;
    }
  }
  return stretches;
}

/** From a place in a direction to where the ring is first left; null when the ring is not entered that way. */
export function rayInside(ring: Ring, from: Point, way: Point): Segment | null {
  let nearest = Number.POSITIVE_INFINITY;
  for (const edge of edgesOf(ring)) {
    const met = meeting([from, [from[0] + way[0], from[1] + way[1]]], edge);
    if (met !== null && met.onLine > LEAST_IN && met.onLine < nearest) nearest = met.onLine;
  }
  if (!Number.isFinite(nearest)) return null;
  const ray: Segment = [from, [from[0] + way[0] * nearest, from[1] + way[1] * nearest]];
  return contains(ring, middle(...ray)) ? ray : null;
}

/** A line so long that it leaves any outline, through a place in a direction (unit vector). */
export const endless = ([x, y]: Point, way: Point): Segment => [
  [x - way[0] * FAR_IN, y - way[1] * FAR_IN],
  [x + way[0] * FAR_IN, y + way[1] * FAR_IN],
];

/** Twice the reach of all coordinates. */
const FAR_IN = 4000;
