import type { Division } from '../../geometry/division.ts';
import { snapPoint, TOUCH_IN } from '../../geometry/lattice.ts';
import type { Point, Ring, Segment } from '../../geometry/point.ts';
import { distance } from '../../geometry/ring.ts';

/** A turn or a mirroring of the plane that leaves a drawing as it is. */
export type Symmetry = (at: Point) => Point;

/** Spots closer than this are one for the eye; what a hand draws is seldom closer. */
const SAME_SPOT_IN = 4 * TOUCH_IN;

/** Are two places one for the eye? */
export const isSamePlace = (a: Point, b: Point): boolean => distance(a, b) <= SAME_SPOT_IN;

/** Is it a mirroring? */
export function turnsOver(move: Symmetry): boolean {
  const [o, x, y] = [move([0, 0]), move([1, 0]), move([0, 1])];
  return (x[0] - o[0]) * (y[1] - o[1]) - (x[1] - o[1]) * (y[0] - o[0]) < 0;
}

/** Every turn and mirroring, but the one that moves nothing, that lays a divided outline on itself. */
export function symmetriesOf(outline: Ring, division: Division): Symmetry[] {
  const { vertices, origin, line } = division;
  const edges = Array.from(
    line,
    (_, e): Segment => [vertices[origin[2 * e]!]!, vertices[origin[2 * e + 1]!]!],
  );
  return candidatesOf(outline).filter((move) => {
    const rim = outline.map(move);
    if (!rim.every((p) => outline.some((q) => isSamePlace(p, q)))) return false;
    return edges.every((edge) => hasImage(edges, edge, move));
  });
}

/** Is the image of a stretch among some others? */
function hasImage(some: readonly Segment[], [a, b]: Segment, move: Symmetry): boolean {
  const [c, d] = [move(a), move(b)];
  return some.some(
    ([p, q]) => (isSamePlace(c, p) && isSamePlace(d, q)) || (isSamePlace(c, q) && isSamePlace(d, p)),
  );
}

/** Do some stretches look the same after every one of these moves? */
export const isSymmetric = (some: readonly Segment[], moves: readonly Symmetry[]): boolean =>
  some.every((one) => moves.every((move) => hasImage(some, one, move)));

/** Stretches with all their images, those that come of one another together. */
export function orbitsOf(some: readonly Segment[], moves: readonly Symmetry[]): Segment[][] {
  const same: Symmetry = (at) => at;
  const orbits: Segment[][] = [];
  for (const one of some) {
    if (orbits.some((orbit) => hasImage(orbit, one, same))) continue;
    const orbit: Segment[] = [one];
    for (const move of moves) {
      const image: Segment = [snapPoint(move(one[0])), snapPoint(move(one[1]))];
      if (!hasImage(orbit, image, same)) orbit.push(image);
    }
    orbits.push(orbit);
  }
  return orbits;
}

/** The moves that lay the first corner of an outline on another and keep the middle of its corners where it is. */
function candidatesOf(outline: Ring): Symmetry[] {
  const n = outline.length;
  const middle: Point = [
    outline.reduce((sum, p) => sum + p[0], 0) / n,
    outline.reduce((sum, p) => sum + p[1], 0) / n,
  ];
  const bearing = (p: Point): number => Math.atan2(p[1] - middle[1], p[0] - middle[0]);
  const first = outline[0]!;
  return outline.flatMap((corner, k) => {
    if (Math.abs(distance(corner, middle) - distance(first, middle)) > SAME_SPOT_IN) return [];
    const turn = bearing(corner) - bearing(first);
    const axis = bearing(corner) + bearing(first);
    return [...(k === 0 ? [] : [moveOf(middle, turn, 1)]), moveOf(middle, axis, -1)];
  });
}

/** Turned by an angle about a middle; mirrored first where `flip` is -1. */
function moveOf(middle: Point, angle: number, flip: 1 | -1): Symmetry {
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  return ([x, y]) => {
    const [dx, dy] = [x - middle[0], flip * (y - middle[1])];
    return [middle[0] + cos * dx - sin * dy, middle[1] + sin * dx + cos * dy];
  };
}
