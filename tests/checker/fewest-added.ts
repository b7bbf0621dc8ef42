import type { Point, Ring } from '../../src/geometry/point.ts';

/**
 * The fewest patches to add, by trying every line: for drawings whose outline and patches are convex. A region is a list
 * of convex pieces; it is parted along the whole line of any edge in it, or through any two of its corners, and what that
 * line runs through is cut in two. It knows nothing of peeling or of what holds; a line that cuts nothing is taken at once,
 * since lines that come later cut no more pieces for it.
 */
export class FewestAdded {
  private readonly known = new Map<string, { least: number; most: number }>();

  /** Pieces added at least; `Infinity` where it would be more than `limit`. */
  of(pieces: readonly Ring[], limit = 12): number {
    for (let bound = 0; bound <= limit; bound++) if (this.does(pieces, bound)) return bound;
    return Number.POSITIVE_INFINITY;
  }

  private does(pieces: readonly Ring[], bound: number): boolean {
    if (pieces.length <= 1) return true;
    const key = pieces
      .map((ring) =>
        ring
          .map((p) => p.map((v) => Math.round(v * 500)).join())
          .sort()
          .join(' '),
      )
      .sort()
      .join('|');
    const found = this.known.get(key) ?? { least: 0, most: Number.POSITIVE_INFINITY };
    this.known.set(key, found);
    if (found.most <= bound) return true;
    if (found.least > bound) return false;
    const partings: Parting[] = [];
    for (const [a, b] of linesOf(pieces)) {
      const parting = part(pieces, a, b, bound);
      if (!parting) continue;
      if (parting.cut === 0) {
        const does = this.bothDo(parting, bound);
        return this.note(found, bound, does);
      }
      partings.push(parting);
    }
    partings.sort((p, q) => p.cut - q.cut);
    return this.note(
      found,
      bound,
      partings.some((parting) => this.bothDo(parting, bound)),
    );
  }

  private bothDo({ cut, left, right }: Parting, bound: number): boolean {
    const rest = bound - cut;
    for (let forLeft = 0; forLeft <= rest; forLeft++)
      if (this.does(left, forLeft)) return this.does(right, rest - forLeft);
    return false;
  }

  private note(found: { least: number; most: number }, bound: number, does: boolean): boolean {
    if (does) found.most = Math.min(found.most, bound);
    else found.least = Math.max(found.least, bound + 1);
    return does;
  }
}

interface Parting {
  readonly cut: number;
  readonly left: readonly Ring[];
  readonly right: readonly Ring[];
}

/** 0.05 mm: as near as this, and a corner lies on a line. */
const ON_LINE_IN = 0.05 / 25.4;

function* linesOf(pieces: readonly Ring[]): Generator<[Point, Point]> {
  // Edges first: only they can cut nothing.
  for (const ring of pieces)
    for (let k = 0; k < ring.length; k++) yield [ring[k]!, ring[(k + 1) % ring.length]!];
  const corners = pieces.flat();
  for (const [k, a] of corners.entries())
    for (const b of corners.slice(k + 1)) if (Math.hypot(b[0] - a[0], b[1] - a[1]) > 0.02) yield [a, b];
}

/** A region parted along a line; null where it lies on one side, or the line cuts more than it may. */
function part(pieces: readonly Ring[], a: Point, b: Point, most: number): Parting | null {
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  const [ux, uy] = [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
  const off = (p: Point): number => ux * (p[1] - a[1]) - uy * (p[0] - a[0]);
  const left: Ring[] = [];
  const right: Ring[] = [];
  const across: Ring[] = [];
  for (const ring of pieces) {
    let isLeft = false;
    let isRight = false;
    for (const p of ring) {
      const d = off(p);
      if (d > ON_LINE_IN) isLeft = true;
      else if (d < -ON_LINE_IN) isRight = true;
    }
    if (isLeft && isRight) {
      across.push(ring);
      if (across.length > most) return null;
    } else (isLeft ? left : right).push(ring);
  }
  if (left.length + across.length === 0 || right.length + across.length === 0) return null;
  for (const ring of across) {
    left.push(clipped(ring, off));
    right.push(clipped(ring, (p) => -off(p)));
  }
  return { cut: across.length, left, right };
}

/** What of a convex ring lies where `off` is not negative. */
function clipped(ring: Ring, off: (p: Point) => number): Ring {
  const kept: Point[] = [];
  ring.forEach((p, k) => {
    const q = ring[(k + 1) % ring.length]!;
    const [d, e] = [off(p), off(q)];
    if (d >= -ON_LINE_IN) kept.push(p);
    if ((d > ON_LINE_IN && e < -ON_LINE_IN) || (d < -ON_LINE_IN && e > ON_LINE_IN)) {
      const t = d / (d - e);
      kept.push([p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1])]);
    }
  });
  return kept;
}
