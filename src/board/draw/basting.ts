import type { Point, Ring, Segment } from '../../geometry/point.ts';
import { distance } from '../../geometry/ring.ts';

/** Rows of stitches inside an outline. All in the outline's own unit. */

/** From where to where on a line, as lengths along it. */
type Reach = readonly [from: number, to: number];

/** An edge of an outline: its beginning, the way it goes, of a length of 1, and how long it is. */
export interface Wall {
  readonly at: Point;
  readonly way: Point;
  readonly length: number;
}

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
  const walls = wallsOf(outline);
  return walls.flatMap((wall, k) => {
    const { at, way, length } = wall;
    const start: Point = [at[0] - way[1] * by, at[1] + way[0] * by];
    const before = walls[(k + walls.length - 1) % walls.length]!;
    const after = walls[(k + 1) % walls.length]!;
    let free: readonly Reach[] = [[-beyond(before, wall, by), length + beyond(wall, after, by)]];
    for (const other of walls) {
      const taken = other === wall ? null : reachNear(start, way, other, by * (1 - HAIR));
      if (taken !== null) free = free.flatMap((reach) => without(reach, taken));
    }
    return free.map(([from, to]): Segment => [spotOn(start, way, from), spotOn(start, way, to)]);
  });
}

const spotOn = ([x, y]: Point, [dx, dy]: Point, far: number): Point => [x + far * dx, y + far * dy];

export function wallFrom(at: Point, to: Point): Wall {
  const length = distance(at, to);
  return { at, way: length === 0 ? [0, 0] : [(to[0] - at[0]) / length, (to[1] - at[1]) / length], length };
}

/** The edges of an outline, those that make one line as one. */
function wallsOf(outline: Ring): readonly Wall[] {
  const edges = outline.map((corner, k) => wallFrom(corner, outline[(k + 1) % outline.length]!));
  const corners = outline.filter((_, k) => {
    const [into, out] = [edges[(k + edges.length - 1) % edges.length]!.way, edges[k]!.way];
    return Math.abs(turnOf(into, out)) > STRAIGHT || dot(into, out) < 0;
  });
  return corners.length === outline.length
    ? edges
    : corners.map((corner, k) => wallFrom(corner, corners[(k + 1) % corners.length]!));
}

const dot = ([ax, ay]: Point, [bx, by]: Point): number => ax * bx + ay * by;

/** The sine of the turn from one way to another, more than 0 at an outline's outer corners. */
const turnOf = ([ax, ay]: Point, [bx, by]: Point): number => ax * by - ay * bx;

/** How far rows run on past an inner corner to meet each other. */
function beyond(into: Wall, out: Wall, by: number): number {
  const sine = -turnOf(into.way, out.way);
  // The tangent of half the turn.
  return sine <= 0 ? 0 : by * Math.min(FARTHEST, sine / Math.max(1 + dot(into.way, out.way), 1e-9));
}

/** What lies outside `taken`. */
function without(reach: Reach, taken: Reach): readonly Reach[] {
  const [from, to] = reach;
  if (taken[0] >= to || taken[1] <= from) return [reach];
  const left: Reach[] = [];
  if (taken[0] > from) left.push([from, taken[0]]);
  if (taken[1] < to) left.push([taken[1], to]);
  return left;
}

/** Where a line comes nearer to a wall than `near`; null where nowhere. `way` has a length of 1. */
export function reachNear(from: Point, way: Point, wall: Wall, near: number): Reach | null {
  const [gx, gy] = [from[0] - wall.at[0], from[1] - wall.at[1]];
  const across = [turnOf(wall.way, [gx, gy]), turnOf(wall.way, way)] as const;
  const along = [dot(wall.way, [gx, gy]), dot(wall.way, way)] as const;
  // All places near a wall make one convex area: a strip beside it, and round about its ends.
  return span(
    span(
      reachAbout(gx, gy, way, near),
      reachAbout(gx - wall.length * wall.way[0], gy - wall.length * wall.way[1], way, near),
    ),
    common(between(...across, -near, near), between(...along, 0, wall.length)),
  );
}

/** Where `at + t · slope` lies between two values. */
function between(at: number, slope: number, low: number, high: number): Reach | null {
  if (Math.abs(slope) < 1e-12)
    return at > low && at < high ? [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY] : null;
  const [a, b] = [(low - at) / slope, (high - at) / slope];
  return a < b ? [a, b] : [b, a];
}

function common(a: Reach | null, b: Reach | null): Reach | null {
  if (a === null || b === null) return null;
  const [from, to] = [Math.max(a[0], b[0]), Math.min(a[1], b[1])];
  return from < to ? [from, to] : null;
}

const span = (a: Reach | null, b: Reach | null): Reach | null =>
  a === null || b === null ? (a ?? b) : [Math.min(a[0], b[0]), Math.max(a[1], b[1])];

/** Where a line comes nearer to a spot than `near`; it begins at `gx`, `gy` from the spot. */
function reachAbout(gx: number, gy: number, way: Point, near: number): Reach | null {
  const across = way[0] * gy - way[1] * gx;
  if (across * across >= near * near) return null;
  const [middle, half] = [-dot(way, [gx, gy]), Math.sqrt(near * near - across * across)];
  return [middle - half, middle + half];
}
