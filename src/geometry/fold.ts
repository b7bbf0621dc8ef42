import type { Point, Ring, Segment } from './point.ts';
import { distance } from './ring.ts';

/** Signed distance of a point from the endless line through a stretch, positive to its right when y points down. Inches. */
function offLine([x, y]: Point, [a, b]: Segment): number {
  return ((b[0] - a[0]) * (y - a[1]) - (b[1] - a[1]) * (x - a[0])) / (distance(a, b) || 1);
}

/** Unit vector square to a stretch, towards the side where `offLine` is positive. */
function squareTo([a, b]: Segment): Point {
  const length = distance(a, b) || 1;
  return [(a[1] - b[1]) / length, (b[0] - a[0]) / length];
}

/** The unit vector square to a stretch that points to the side a place lies on. */
export function towards(line: Segment, at: Point): Point {
  const [x, y] = squareTo(line);
  return offLine(at, line) < 0 ? [-x, -y] : [x, y];
}

/**
 * A flat shape turned about the line of a stretch, as seen from straight above. `share` is the cosine of the turn: 1
 * lies as it was, 0 stands upright on its edge, -1 is turned right over, which is its mirror image in the line.
 */
export function foldedOver(ring: Ring, line: Segment, share: number): Ring {
  const [x, y] = squareTo(line);
  return ring.map((point): Point => {
    const by = (share - 1) * offLine(point, line);
    return [point[0] + x * by, point[1] + y * by];
  });
}

/** Does all of a shape lie on one side of the endless line through a stretch, up to `slack` inches? */
export function isOnOneSide(ring: Ring, line: Segment, slack: number): boolean {
  const off = ring.map((point) => offLine(point, line));
  return Math.min(...off) >= -slack || Math.max(...off) <= slack;
}

/**
 * What is left of a shape when all that lies farther than `beyond` inches past the line of a stretch is cut away; the
 * side kept is the one `keep` lies on. For shapes without inward corners along the line; the empty ring when nothing
 * is left. Source: clipping against one edge, Sutherland and Hodgman 1974.
 */
export function cutAway(ring: Ring, line: Segment, keep: Point, beyond: number): Ring {
  const side = offLine(keep, line) < 0 ? -1 : 1;
  const room = ring.map((point) => side * offLine(point, line) + beyond);
  return ring.flatMap((point, i): Point[] => {
    const next = (i + 1) % ring.length;
    const [here, there] = [room[i]!, room[next]!];
    const kept = here >= 0 ? [point] : [];
    if (here >= 0 === there >= 0) return kept;
    const t = here / (here - there);
    const to = ring[next]!;
    return [...kept, [point[0] + t * (to[0] - point[0]), point[1] + t * (to[1] - point[1])]];
  });
}
