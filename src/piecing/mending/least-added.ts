import { TOUCH_IN } from '../../geometry/lattice.ts';
import type { Point } from '../../geometry/point.ts';
import { cross, distance, middle } from '../../geometry/ring.ts';
import { holdsSpot } from './part-along.ts';
import type { Plane } from './plane.ts';
import type { Piece, Tract } from './tract.ts';

/** Two edges that run on from each other but for so little may count as straight: 1°, as cosine. */
const STRAIGHT = -Math.cos(Math.PI / 180);

/** A spot inside a tract at which no line runs straight on: a seam must come to end there, in one of these pieces. */
interface Need {
  readonly spot: number;
  readonly pieces: ReadonlySet<number>;
}

/**
 * Pieces that any way to sew a tract adds at least. The first seam through a spot inside runs straight through it. Where no line
 * does, at least one added stretch ends there: in the piece that reaches more than half way round it, where one does. A stretch
 * inside a piece adds one, or joins an island to what lies round it. One that runs from such a spot to another serves both;
 * of spots joined so to a tree, each leaf is served by one stretch alone, which must then go on straight from an edge that is
 * there: trees are no more than half of the spots where that may be. Cost: O(edges + spots²).
 */
export function leastAdded(plane: Plane, tract: Tract): number {
  const { pieces, edges, spots, isRim } = tract;
  const place = (spot: number): Point => plane.spots[spots[spot]!]!;
  const towards: number[][] = spots.map(() => []);
  for (const { from, to } of edges) {
    towards[from]!.push(to);
    towards[to]!.push(from);
  }
  const placeOf = new Map(spots.map((spot, k) => [spot, k]));
  const corners: { piece: number; before: number; after: number }[][] = spots.map(() => []);
  pieces.forEach(({ loops }, piece) => {
    for (const { spots: walk } of loops)
      walk.forEach((spot, k) => {
        corners[placeOf.get(spot)!]!.push({
          piece,
          before: placeOf.get(walk.at(k - 1)!)!,
          after: placeOf.get(walk[k + 1] ?? walk[0]!)!,
        });
      });
  });

  const needs = spots.flatMap((_, spot): Need[] => {
    if (isRim[spot] === 1 || runsOn(spot)) return [];
    const wide = corners[spot]!.filter(
      ({ before, after }) => cross(place(before), place(spot), place(after)) < 0,
    );
    return [{ spot, pieces: new Set((wide.length > 0 ? wide : corners[spot]!).map(({ piece }) => piece)) }];
  });
  if (needs.length === 0) return 0;
  const islands = pieces.reduce((sum, { loops }) => sum + loops.length - 1, 0);
  return Math.max(0, needs.length - mostTrees(needs) - islands);

  /** Does some line run straight on through a spot, or nearly? */
  function runsOn(spot: number): boolean {
    const others = towards[spot]!;
    return others.some((one, k) =>
      others.slice(k + 1).some((other) => isOpposite(spot, place(one), place(other))),
    );
  }

  function isOpposite(spot: number, a: Point, b: Point): boolean {
    const at = place(spot);
    const [p, q] = [distance(at, a), distance(at, b)];
    // The direction of a short edge is told less well.
    if (Math.min(p, q) < 40 * TOUCH_IN) return true;
    return ((a[0] - at[0]) * (b[0] - at[0]) + (a[1] - at[1]) * (b[1] - at[1])) / (p * q) <= STRAIGHT;
  }

  /** Trees of stretches from one spot in need to another, at most. */
  function mostTrees(all: readonly Need[]): number {
    const groupOf = all.map((_, k) => k);
    const root = (k: number): number => {
      let top = k;
      while (groupOf[top] !== top) top = groupOf[top]!;
      return top;
    };
    const isLeaf = all.map(() => false);
    all.forEach((one, i) => {
      for (let j = i + 1; j < all.length; j++) {
        const other = all[j]!;
        for (const piece of one.pieces) {
          if (!other.pieces.has(piece) || !sees(pieces[piece]!, one.spot, other.spot)) continue;
          groupOf[root(i)] = root(j);
          isLeaf[i] ||= towards[one.spot]!.some((to) => isOpposite(one.spot, place(to), place(other.spot)));
          isLeaf[j] ||= towards[other.spot]!.some((to) => isOpposite(other.spot, place(to), place(one.spot)));
        }
      }
    });
    const leaves = new Map<number, number>();
    isLeaf.forEach((is, k) => {
      if (is) leaves.set(root(k), (leaves.get(root(k)) ?? 0) + 1);
    });
    return [...leaves.values()].reduce((sum, count) => sum + Math.floor(count / 2), 0);
  }

  /** May a stretch run straight inside a piece from one of its corners to another? Said of all that may. */
  function sees(piece: Piece, a: number, b: number): boolean {
    const [p, q] = [place(a), place(b)];
    if (!holdsSpot(plane, piece, middle(p, q))) return false;
    return !piece.loops.some(({ spots: walk }) =>
      walk.some((spot, k) => {
        const next = walk[k + 1] ?? walk[0]!;
        if ([spot, next].some((one) => one === spots[a] || one === spots[b])) return false;
        return crosses(p, q, plane.spots[spot]!, plane.spots[next]!);
      }),
    );
  }
}

/** Do two stretches cross by more than a touch? */
function crosses(a: Point, b: Point, c: Point, d: Point): boolean {
  const off = 4 * TOUCH_IN;
  const [ab, cd] = [distance(a, b), distance(c, d)];
  const [s, t] = [cross(a, b, c) / ab, cross(a, b, d) / ab];
  const [u, v] = [cross(c, d, a) / cd, cross(c, d, b) / cd];
  return Math.min(s, t) < -off && Math.max(s, t) > off && Math.min(u, v) < -off && Math.max(u, v) > off;
}
