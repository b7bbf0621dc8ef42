import { LATTICE_STEPS_PER_IN, snapPoint } from '../../geometry/lattice.ts';
import type { Point, Ring, Segment } from '../../geometry/point.ts';
import { boxOf, cross, distanceToSegment, signedArea } from '../../geometry/ring.ts';

/** How far from its corner a mitred tip may stay, as a multiple of the allowance. A corner of 60° just does. */
export const MITRE_LIMIT = 2;

/** Slack on the cosine of a turn, so that a corner of 60° counts as one after its ends were put on the lattice. */
const ON_THE_LIMIT = 1e-4;

/** A corner this close to the line between its neighbours is no corner: a T-junction that snapping moved. */
const FLAT_IN = 4 / LATTICE_STEPS_PER_IN;

/**
 * The corners of an outline, without the T-junctions on its sides: what is left out lies within 4 lattice steps
 * (0.0016 mm) of the sides that remain. Open ring, turning as it came in.
 */
export function corners(outline: Ring): Ring {
  const count = outline.length;
  if (count < 4) return outline;
  // Begin at the vertex farthest from the first, which is a corner for certain.
  const first = outline[0]!;
  let start = 0;
  let farthest = 0;
  for (let i = 0; i < count; i++) {
    const apart = Math.hypot(outline[i]![0] - first[0], outline[i]![1] - first[1]);
    if (apart > farthest) {
      farthest = apart;
      start = i;
    }
  }
  const at = (i: number): Point => outline[(start + i) % count]!;
  const kept: Point[] = [];
  let last = 0;
  while (last < count) {
    kept.push(at(last));
    let next = last + 1;
    while (next < count && flatBetween(at, last, next + 1)) next++;
    last = next;
  }
  return kept;
}

/** Whether all vertices between two lie on the side from one to the other. */
function flatBetween(at: (i: number) => Point, from: number, to: number): boolean {
  for (let i = from + 1; i < to; i++) if (distanceToSegment(at(i), at(from), at(to)) > FLAT_IN) return false;
  return true;
}

/**
 * The trim line: an outline grown outward by the seam allowance.
 *
 * Shape: simple outline, open, positive shoelace area, T-junctions allowed; the result likewise, without them.
 * Corners are mitred while the tip stays within 2 × the allowance of the corner, and cut square across at that
 * distance beyond. Where the allowance of two sides meets (a narrow notch, the mouth of a bay) the line runs round
 * both; a hole that closes over is left out, since no one trims it. Units: inches, on the lattice.
 * Cost: O(n²) in corners, O(n) for a convex outline.
 */
export function trimLine(outline: Ring, allowance: number): Ring {
  const ring = corners(outline);
  if (!(allowance > 0)) return ring;
  const convex = ring.every((b, i) => cross(ring.at(i - 1)!, b, ring[(i + 1) % ring.length]!) >= 0);
  const raw = rawOffset(ring, allowance);
  return convex ? raw : outerBoundary(raw);
}

/**
 * The trim line inside a hole of a section: its sides moved in by the allowance. Ring of negative shoelace area,
 * as holes turn; the result likewise. Null where the hole is too narrow for any line to be cut in it.
 */
export function holeTrimLine(hole: Ring, allowance: number): Ring | null {
  const ring = corners(hole);
  if (!(allowance > 0)) return ring;
  const count = ring.length;
  const normals = normalsOf(ring);
  const moved = ring.map(([x, y], i): Point => {
    const [mx, my] = normals[(i + count - 1) % count]!;
    const [nx, ny] = normals[i]!;
    const reach = allowance / Math.max(1e-3, 1 + mx * nx + my * ny);
    return snapPoint([x + reach * (mx + nx), y + reach * (my + ny)]);
  });
  const at = (points: Ring, i: number): Point => points[i % count]!;
  for (let i = 0; i < count; i++) {
    const [a, b, p, q] = [at(ring, i), at(ring, i + 1), at(moved, i), at(moved, i + 1)];
    if ((b[0] - a[0]) * (q[0] - p[0]) + (b[1] - a[1]) * (q[1] - p[1]) <= 0) return null;
    if (moved.some((point) => distanceToSegment(point, a, b) < allowance - FLAT_IN)) return null;
  }
  return moved;
}

/** Unit normals of the sides of a ring, away from what the ring encloses or, for a hole, into it. */
function normalsOf(ring: Ring): Point[] {
  return ring.map((a, i) => {
    const b = ring[(i + 1) % ring.length]!;
    const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
    return [(b[1] - a[1]) / length, (a[0] - b[0]) / length];
  });
}

/**
 * Every side moved out, joined at each corner: a mitre or a square cut where the outline turns outward, a link
 * through the corner itself where it turns inward. It may cross itself, but never leaves the grown shape, and its
 * outer boundary is that of the grown shape.
 */
function rawOffset(ring: Ring, allowance: number): Point[] {
  const count = ring.length;
  const normals = normalsOf(ring);
  const raw: Point[] = [];
  const add = (x: number, y: number): void => {
    const point = snapPoint([x, y]);
    const before = raw.at(-1);
    if (before?.[0] !== point[0] || before[1] !== point[1]) raw.push(point);
  };
  for (let i = 0; i < count; i++) {
    const [x, y] = ring[i]!;
    const [mx, my] = normals[(i + count - 1) % count]!;
    const [nx, ny] = normals[i]!;
    const turn = mx * ny - my * nx;
    // Cosine of the turn; the tip of the mitre lies allowance / cos(turn / 2) from the corner.
    const cosine = mx * nx + my * ny;
    if (turn < 0) {
      add(x + allowance * mx, y + allowance * my);
      add(x, y);
      add(x + allowance * nx, y + allowance * ny);
    } else if (1 + cosine >= 2 / MITRE_LIMIT ** 2 - ON_THE_LIMIT) {
      const reach = allowance / (1 + cosine);
      add(x + reach * (mx + nx), y + reach * (my + ny));
    } else {
      // Along the line of each side as far as the square cut: tan of the angle between side and cut, by halves.
      const half = Math.acos(Math.max(-1, Math.min(1, cosine))) / 2;
      const onward = (allowance * (MITRE_LIMIT - Math.cos(half))) / Math.sin(half);
      add(x + allowance * mx - onward * my, y + allowance * my + onward * mx);
      add(x + allowance * nx + onward * ny, y + allowance * ny - onward * nx);
    }
  }
  const first = raw[0]!;
  const last = raw.at(-1)!;
  if (raw.length > 1 && first[0] === last[0] && first[1] === last[1]) raw.pop();
  return raw;
}

/**
 * Outer boundary of a closed line that may cross and touch itself: its sides are split where they meet, and the
 * walk along the unbounded face takes the outermost turn at every meeting.
 * The walk follows a permutation of directed stretches, so it ends whatever the rounding did.
 */
function outerBoundary(closed: readonly Point[]): Ring {
  const key = ([x, y]: Point): string => `${x},${y}`;
  const nodes: Point[] = [];
  const nodeOf = new Map<string, number>();
  const node = (point: Point): number => {
    const name = key(point);
    const known = nodeOf.get(name);
    if (known !== undefined) return known;
    nodes.push(point);
    nodeOf.set(name, nodes.length - 1);
    return nodes.length - 1;
  };
  const around: Set<number>[] = [];
  const link = (a: number, b: number): void => {
    if (a === b) return;
    for (const [p, q] of [
      [a, b],
      [b, a],
    ] as const) {
      around[p] ??= new Set();
      around[p].add(q);
    }
  };
  for (const stretch of splitAtMeetings(closed)) {
    for (let i = 1; i < stretch.length; i++) link(node(stretch[i - 1]!), node(stretch[i]!));
  }
  const sorted = nodes.map((from, i) => {
    const angle = (to: number): number => Math.atan2(nodes[to]![1] - from[1], nodes[to]![0] - from[0]);
    return [...(around[i] ?? [])].sort((a, b) => angle(a) - angle(b));
  });

  // The topmost, then leftmost node is on the boundary. Nothing lies above it, so the boundary, which has the
  // inside on its right as drawn with y down, leaves it along the stretch of smallest angle.
  let start = 0;
  for (let i = 1; i < nodes.length; i++) {
    const [x, y] = nodes[i]!;
    const best = nodes[start]!;
    if (y < best[1] || (y === best[1] && x < best[0])) start = i;
  }
  const walk: number[] = [];
  let from = start;
  let to = sorted[start]![0]!;
  const firstTo = to;
  do {
    walk.push(from);
    const ways = sorted[to]!;
    // The way after the one we came by, turning with the angle: the outermost.
    const next = ways[(ways.indexOf(from) + 1) % ways.length]!;
    from = to;
    to = next;
  } while (from !== start || to !== firstTo);

  return corners(withoutSpikes(walk.map((i) => nodes[i]!)));
}

/** Each side of the closed line with the spots where another meets it, in turn. Spots are on the lattice. */
function splitAtMeetings(closed: readonly Point[]): Point[][] {
  const sides: Segment[] = closed.map((a, i) => [a, closed[(i + 1) % closed.length]!]);
  const boxes = sides.map((side) => boxOf(side));
  const cuts: { t: number; at: Point }[][] = sides.map(() => []);
  const along = (i: number, at: Point): number => {
    const [a, b] = sides[i]!;
    const dx = b[0] - a[0];
    const dy = b[1] - a[1];
    return ((at[0] - a[0]) * dx + (at[1] - a[1]) * dy) / (dx * dx + dy * dy);
  };
  const put = (i: number, at: Point): void => {
    const t = along(i, at);
    if (t > 0 && t < 1) cuts[i]!.push({ t, at });
  };
  const touch = 1.5 / LATTICE_STEPS_PER_IN;
  for (let i = 0; i < sides.length; i++) {
    const [a, b] = sides[i]!;
    for (let j = i + 1; j < sides.length; j++) {
      const p = boxes[i]!;
      const q = boxes[j]!;
      if (p.maxX + touch < q.minX || q.maxX + touch < p.minX) continue;
      if (p.maxY + touch < q.minY || q.maxY + touch < p.minY) continue;
      const [c, d] = sides[j]!;
      let touching = false;
      for (const [end, k] of [
        [a, j],
        [b, j],
        [c, i],
        [d, i],
      ] as const) {
        if (distanceToSegment(end, ...sides[k]!) > touch) continue;
        put(k, end);
        touching = true;
      }
      if (touching) continue;
      const toC = cross(a, b, c);
      const toD = cross(a, b, d);
      if (toC > 0 === toD > 0 || cross(c, d, a) > 0 === cross(c, d, b) > 0) continue;
      const t = toC / (toC - toD);
      const at = snapPoint([c[0] + t * (d[0] - c[0]), c[1] + t * (d[1] - c[1])]);
      put(i, at);
      put(j, at);
    }
  }
  return sides.map(([a, b], i) => [a, ...cuts[i]!.sort((s, t) => s.t - t.t).map((cut) => cut.at), b]);
}

/** The ring without stretches walked out and straight back. */
function withoutSpikes(ring: readonly Point[]): Ring {
  const kept: Point[] = [];
  const same = (a: Point | undefined, b: Point | undefined): boolean =>
    a !== undefined && b !== undefined && a[0] === b[0] && a[1] === b[1];
  for (const point of ring) {
    if (same(kept.at(-2), point)) kept.pop();
    else if (!same(kept.at(-1), point)) kept.push(point);
  }
  while (kept.length > 3 && same(kept.at(-1), kept[1])) {
    kept.pop();
    kept.shift();
  }
  while (kept.length > 3 && (same(kept.at(-1), kept[0]) || same(kept.at(-2), kept[0]))) kept.pop();
  return signedArea(kept) < 0 ? kept.reverse() : kept;
}
