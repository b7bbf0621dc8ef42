import { isBlockPlace, type Part } from '../../document/quilt.ts';
import type { Point, Ring } from '../../geometry/point.ts';
import { cross, distance, lengthOf } from '../../geometry/ring.ts';
import { phrase } from '../../words/phrase.ts';
import type { Layout } from '../layout.ts';
import { EIGHTH_IN, roundUp } from './round-up.ts';
import { halfSquare, quarterSquare } from './triangles.ts';

/**
 * Plain cloth as it is cut, all seams added: what a cutting plan needs to know of it.
 * - `rectangle`: cut as it is.
 * - `half-square`, `quarter-square`: a square cut once or twice from corner to corner, two or four triangles of it.
 */
export interface PlainPiece {
  /** Null while none is chosen. */
  readonly fabric: string | null;
  readonly width: number;
  readonly height: number;
  /** How many are cut. */
  readonly count: number;
  readonly kind: 'rectangle' | 'half-square' | 'quarter-square';
  /** How many pieces of the quilt come of them. */
  readonly pieces: number;
  readonly what: string;
}

const WORDS: Readonly<Record<Part | 'plain', string>> = {
  sashing: phrase('Sashing'),
  cornerstone: phrase('Cornerstones'),
  'side-triangle': phrase('Side triangles'),
  'corner-triangle': phrase('Corner triangles'),
  strip: phrase('Strips'),
  border: phrase('Border'),
  plain: phrase('Plain pieces'),
};

/** Everything plain in a quilt, alike pieces together, as it is cut with a seam of so much all round. */
export function plainPieces({ pieces }: Layout, seam: number): PlainPiece[] {
  const found = new Map<string, PlainPiece>();
  for (const { place, polygon } of pieces) {
    if (isBlockPlace(place)) continue;
    const cut = cutOf(polygon, seam);
    const what = WORDS[place.part ?? 'plain'];
    const fabric = place.fabric ?? null;
    const key = [what, fabric, cut.kind, cut.width.toFixed(3), cut.height.toFixed(3)].join(' ');
    const known = found.get(key);
    const inAll = (known?.pieces ?? 0) + 1;
    found.set(key, { ...cut, fabric, what, pieces: inAll, count: Math.ceil(inAll / YIELD[cut.kind]) });
  }
  return [...found.values()];
}

const YIELD = { rectangle: 1, 'half-square': 2, 'quarter-square': 4 } as const;

type Cut = Pick<PlainPiece, 'kind' | 'width' | 'height'>;

/** The straight grain runs along the outer edge: so a triangle whose long side lies level is a quarter of a square. */
function cutOf(polygon: Ring, seam: number): Cut {
  const triangle = polygon.length === 3 ? rightTriangle(polygon) : null;
  if (triangle) {
    const side = triangle.isLongSideStraight
      ? quarterSquare(triangle.longSide, seam)
      : halfSquare(triangle.longSide * Math.SQRT1_2, seam);
    return {
      kind: triangle.isLongSideStraight ? 'quarter-square' : 'half-square',
      width: side,
      height: side,
    };
  }
  const [along, across] = boxAlong(polygon, seam);
  const isRight = polygon.length === 4 && isRectangle(polygon);
  const tidy = (length: number): number => (isRight ? length : roundUp(length, EIGHTH_IN));
  return { kind: 'rectangle', width: tidy(along), height: tidy(across) };
}

/** A triangle with a right angle and two sides alike. */
function rightTriangle(
  ring: Ring,
): { readonly longSide: number; readonly isLongSideStraight: boolean } | null {
  const sides = ring.map((p, k) => ({ p, q: ring[(k + 1) % 3]!, length: distance(p, ring[(k + 1) % 3]!) }));
  const [long, a, b] = sides.sort((s, t) => t.length - s.length) as [Side, Side, Side];
  if (Math.abs(a.length - b.length) > 1e-3 || Math.abs(long.length - a.length * Math.SQRT2) > 1e-3)
    return null;
  const isLongSideStraight = Math.abs(long.p[0] - long.q[0]) < 1e-3 || Math.abs(long.p[1] - long.q[1]) < 1e-3;
  return { longSide: long.length, isLongSideStraight };
}

interface Side {
  readonly p: Point;
  readonly q: Point;
  readonly length: number;
}

const isRectangle = (ring: Ring): boolean =>
  ring.every((p, k) => {
    const q = ring[(k + 1) % 4]!;
    const r = ring[(k + 2) % 4]!;
    const dot = (q[0] - p[0]) * (r[0] - q[0]) + (q[1] - p[1]) * (r[1] - q[1]);
    return Math.abs(dot) <= 1e-3 * distance(p, q) * distance(q, r);
  });

/** Length and width of the box along the longest side that holds a shape grown by the seam, its corners drawn out to tips. */
function boxAlong(ring: Ring, seam: number): Point {
  const grown = grownBy(ring, seam);
  const sides = ring.map((p, k) => [p, ring[(k + 1) % ring.length]!] as const);
  const [p, q] = sides.reduce((best, side) =>
    distance(side[0], side[1]) > distance(best[0], best[1]) + 1e-3 ? side : best,
  );
  const length = distance(p, q);
  const [dx, dy] = [(q[0] - p[0]) / length, (q[1] - p[1]) / length];
  const span = (f: (at: Point) => number): number => Math.max(...grown.map(f)) - Math.min(...grown.map(f));
  return [span(([x, y]) => x * dx + y * dy), span(([x, y]) => y * dx - x * dy)];
}

/** A convex ring grown on every side, shoelace area positive. */
function grownBy(ring: Ring, by: number): Ring {
  const n = ring.length;
  return ring.map((p, k): Point => {
    const before = ring[(k + n - 1) % n]!;
    const after = ring[(k + 1) % n]!;
    const outward = (a: Point, b: Point): Point => {
      const length = lengthOf(b[0] - a[0], b[1] - a[1]);
      return [(b[1] - a[1]) / length, -(b[0] - a[0]) / length];
    };
    const [u, v] = [outward(before, p), outward(p, after)];
    const turn = cross([0, 0], u, v);
    // In line: the corner only moves outward.
    if (Math.abs(turn) < 1e-6) return [p[0] + u[0] * by, p[1] + u[1] * by];
    return [p[0] + (by * (v[1] - u[1])) / turn, p[1] + (by * (u[0] - v[0])) / turn];
  });
}
