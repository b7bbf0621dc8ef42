import type { Point, Ring, Segment } from '../../geometry/point.ts';
import { edgesOf } from '../nearness.ts';

/** Rows of stitches inside an outline. All in the outline's own unit. */

/** From where to where on a line, as lengths along it. */
type Reach = readonly [from: number, to: number];

/** A row goes no farther round an inner corner than this many times its distance from the edge. */
const FARTHEST = 3;

/** Corners that turn by less than about a thousandth of a radian are none. */
const STRAIGHT = 1e-3;

/** Rows keep their distance but for this share of it, or two edges would part each other's rows. */
const HAIR = 1e-3;

/**
 * A row beside each edge of an outline, inside it at a distance, as far as it keeps that distance from all other edges:
 * one edge may have several rows, or none where the outline is too narrow. The outline turns so that its shoelace area
 * is positive.
 */
export function rowsInside(outline: Ring, by: number): readonly Segment[] {
  const edges = edgesOf(cornersOf(outline));
  return edges.flatMap((edge, k) => {
    const [[x, y]] = edge;
    const [ux, uy] = directionOf(edge);
    const beside: Point = [x - uy * by, y + ux * by];
    let free: readonly Reach[] = [
      [
        -beyond(edges[(k + edges.length - 1) % edges.length]!, edge, by),
        lengthOf(edge) + beyond(edge, edges[(k + 1) % edges.length]!, by),
      ],
    ];
    for (const [other, wall] of edges.entries()) {
      if (other === k) continue;
      const taken = reachNear(beside, [ux, uy], wall, by * (1 - HAIR));
      if (taken !== null) free = free.flatMap((reach) => without(reach, taken));
    }
    return free.map(
      ([from, to]): Segment => [
        [beside[0] + from * ux, beside[1] + from * uy],
        [beside[0] + to * ux, beside[1] + to * uy],
      ],
    );
  });
}

/** An outline's corners without the spots on its straight edges. */
const cornersOf = (outline: Ring): Ring =>
  outline.filter((corner, k) => {
    const into = directionOf([outline[(k + outline.length - 1) % outline.length]!, corner]);
    const out = directionOf([corner, outline[(k + 1) % outline.length]!]);
    return Math.abs(turnOf(into, out)) > STRAIGHT || dot(into, out) < 0;
  });

const lengthOf = ([[ax, ay], [bx, by]]: Segment): number => Math.hypot(bx - ax, by - ay);

function directionOf(edge: Segment): Point {
  const [[ax, ay], [bx, by]] = edge;
  const length = lengthOf(edge) || 1;
  return [(bx - ax) / length, (by - ay) / length];
}

const dot = ([ax, ay]: Point, [bx, by]: Point): number => ax * bx + ay * by;

/** The sine of the turn from one direction to another, more than 0 at an outline's outer corners. */
const turnOf = ([ax, ay]: Point, [bx, by]: Point): number => ax * by - ay * bx;

/** How far rows run on past an inner corner to meet each other. */
function beyond(before: Segment, after: Segment, by: number): number {
  const [into, out] = [directionOf(before), directionOf(after)];
  const sine = -turnOf(into, out);
  // The tangent of half the turn.
  return sine <= 0 ? 0 : by * Math.min(FARTHEST, sine / Math.max(1 + dot(into, out), 1e-9));
}

/** What lies outside `taken`. */
const without = ([from, to]: Reach, taken: Reach): readonly Reach[] =>
  (
    [
      [from, Math.min(to, taken[0])],
      [Math.max(from, taken[1]), to],
    ] as const
  ).filter(([start, end]) => end > start);

/** Where a line comes nearer to a wall than `near`; null where nowhere. `u` has a length of 1. */
export function reachNear(from: Point, u: Point, wall: Segment, near: number): Reach | null {
  const w = directionOf(wall);
  const [gx, gy] = [from[0] - wall[0][0], from[1] - wall[0][1]];
  const beside = between(turnOf(w, [gx, gy]), turnOf(w, u), -near, near);
  const alongside = between(dot(w, [gx, gy]), dot(w, u), 0, lengthOf(wall));
  const reaches = [
    beside !== null && alongside !== null ? common(beside, alongside) : null,
    ...wall.map((end) => reachAbout(from, u, end, near)),
  ].filter((reach) => reach !== null);
  // All places near a wall make one convex area.
  return reaches.length === 0
    ? null
    : [Math.min(...reaches.map(([start]) => start)), Math.max(...reaches.map(([, end]) => end))];
}

/** Where `at + t · slope` lies between two values. */
function between(at: number, slope: number, low: number, high: number): Reach | null {
  if (Math.abs(slope) < 1e-12)
    return at > low && at < high ? [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY] : null;
  const [a, b] = [(low - at) / slope, (high - at) / slope];
  return a < b ? [a, b] : [b, a];
}

const common = (a: Reach, b: Reach): Reach | null => {
  const reach: Reach = [Math.max(a[0], b[0]), Math.min(a[1], b[1])];
  return reach[0] < reach[1] ? reach : null;
};

function reachAbout(from: Point, u: Point, spot: Point, near: number): Reach | null {
  const [gx, gy] = [spot[0] - from[0], spot[1] - from[1]];
  const middle = dot(u, [gx, gy]);
  const half2 = near * near - turnOf(u, [gx, gy]) ** 2;
  if (half2 <= 0) return null;
  const half = Math.sqrt(half2);
  return [middle - half, middle + half];
}
