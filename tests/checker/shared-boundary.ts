import type { Point, Ring, Segment } from '../../src/geometry/point.ts';

/**
 * Plane measuring for the checker, kept apart from the project's own geometry so that one cannot hide the
 * other's mistakes: no half-edges, no recorded lines, only lengths of edges that lie on one another.
 * Lengths in inches, y down.
 */

/** A patch as the checker sees it: its outer ring and the rings of any islands in it. */
export interface Shape {
  readonly polygon: Ring;
  readonly holes: readonly Ring[];
}

/** 0.1 mm in inches: two stretches this close are one straight line, two spots this close are one spot. */
export const TENTH_MM_IN = 0.1 / 25.4;

/** Edges lie on one another when no further apart than this: two steps of 2^-16 in. */
const SAME_EDGE_IN = 2 / 65536;

/** Shorter than this, two edges only meet end to end: eight steps, 0.003 mm. */
const SHORTEST_STRETCH_IN = 8 / 65536;

const distance = (a: Point, b: Point): number => Math.hypot(a[0] - b[0], a[1] - b[1]);

/** Distance of `p` from the endless line through `a` and `b`; from `a` where the two are one point. */
export function distanceFromLine(p: Point, a: Point, b: Point): number {
  const length = distance(a, b);
  if (length === 0) return distance(p, a);
  return Math.abs((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])) / length;
}

/** How far along from `a` towards `b` the foot of `p` lies, in inches. */
export function along(p: Point, a: Point, b: Point): number {
  const length = distance(a, b);
  return length === 0 ? 0 : ((p[0] - a[0]) * (b[0] - a[0]) + (p[1] - a[1]) * (b[1] - a[1])) / length;
}

/** Twice-counted area halved: positive for rings that turn as the plan's polygons do. */
export function signedArea(ring: Ring): number {
  let sum = 0;
  for (let i = 0; i < ring.length; i++) {
    const [x1, y1] = ring[i]!;
    const [x2, y2] = ring[(i + 1) % ring.length]!;
    sum += x1 * y2 - x2 * y1;
  }
  return sum / 2;
}

export const shapeArea = (shape: Shape): number =>
  Math.abs(signedArea(shape.polygon)) -
  shape.holes.reduce((sum, hole) => sum + Math.abs(signedArea(hole)), 0);

export function edgesOf(shape: Shape): Segment[] {
  const edges: Segment[] = [];
  for (const ring of [shape.polygon, ...shape.holes]) {
    for (let i = 0; i < ring.length; i++) edges.push([ring[i]!, ring[(i + 1) % ring.length]!]);
  }
  return edges;
}

/** Even-odd rule; points on an edge may fall either way. */
export function insideRing([x, y]: Point, ring: Ring): boolean {
  let inside = false;
  for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
    const [xi, yi] = ring[i]!;
    const [xj, yj] = ring[j]!;
    if (yi > y !== yj > y && x < ((xj - xi) * (y - yi)) / (yj - yi) + xi) inside = !inside;
  }
  return inside;
}

export const insideShape = (p: Point, shape: Shape): boolean =>
  insideRing(p, shape.polygon) && !shape.holes.some((hole) => insideRing(p, hole));

/** Distance of `p` from the nearest edge of the shape. */
export function distanceFromBoundary(p: Point, shape: Shape): number {
  let nearest = Number.POSITIVE_INFINITY;
  for (const [a, b] of edgesOf(shape)) {
    const t = along(p, a, b);
    const length = distance(a, b);
    const d = t <= 0 ? distance(p, a) : t >= length ? distance(p, b) : distanceFromLine(p, a, b);
    if (d < nearest) nearest = d;
  }
  return nearest;
}

/** A point well inside the shape: the best of the middles of the chords that level lines cut from it. */
export function pointInside(shape: Shape): Point {
  const ys = [...new Set([shape.polygon, ...shape.holes].flat().map((p) => p[1]))].sort((a, b) => a - b);
  let best: Point = shape.polygon[0]!;
  let bestClearance = -1;
  for (let i = 0; i + 1 < ys.length; i++) {
    const y = (ys[i]! + ys[i + 1]!) / 2;
    const xs: number[] = [];
    for (const [a, b] of edgesOf(shape)) {
      if (a[1] > y !== b[1] > y) xs.push(a[0] + ((y - a[1]) / (b[1] - a[1])) * (b[0] - a[0]));
    }
    xs.sort((a, b) => a - b);
    for (let k = 0; k + 1 < xs.length; k += 2) {
      const candidate: Point = [(xs[k]! + xs[k + 1]!) / 2, y];
      const clearance = distanceFromBoundary(candidate, shape);
      if (clearance > bestClearance) [best, bestClearance] = [candidate, clearance];
    }
  }
  return best;
}

interface Box {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

export function boxOf(points: readonly Point[]): Box {
  const xs = points.map((p) => p[0]);
  const ys = points.map((p) => p[1]);
  return { x0: Math.min(...xs), y0: Math.min(...ys), x1: Math.max(...xs), y1: Math.max(...ys) };
}

export const boxesApart = (a: Box, b: Box, slack: number): boolean =>
  a.x1 + slack < b.x0 || b.x1 + slack < a.x0 || a.y1 + slack < b.y0 || b.y1 + slack < a.y0;

/** The stretch two edges lie on together, or null. They must run against each other, as neighbours' edges do. */
function commonStretch([p, q]: Segment, [r, s]: Segment): Segment | null {
  const length = distance(p, q);
  if (length === 0) return null;
  const ux = (q[0] - p[0]) / length;
  const uy = (q[1] - p[1]) / length;
  if ((s[0] - r[0]) * ux + (s[1] - r[1]) * uy >= 0) return null;
  const tr = along(r, p, q);
  const ts = along(s, p, q);
  const from = Math.max(0, Math.min(tr, ts));
  const to = Math.min(length, Math.max(tr, ts));
  if (to - from < SHORTEST_STRETCH_IN) return null;
  const a: Point = [p[0] + ux * from, p[1] + uy * from];
  const b: Point = [p[0] + ux * to, p[1] + uy * to];
  if (distanceFromLine(a, r, s) > SAME_EDGE_IN || distanceFromLine(b, r, s) > SAME_EDGE_IN) return null;
  return [a, b];
}

/** All the boundary two shapes have in common, as the pieces of edges that lie on one another. */
export function sharedBoundary(a: Shape, b: Shape): Segment[] {
  if (boxesApart(boxOf(a.polygon), boxOf(b.polygon), SAME_EDGE_IN)) return [];
  const stretches: Segment[] = [];
  const theirs = edgesOf(b).map((edge) => ({ edge, box: boxOf(edge) }));
  for (const mine of edgesOf(a)) {
    const box = boxOf(mine);
    for (const other of theirs) {
      if (boxesApart(box, other.box, SAME_EDGE_IN)) continue;
      const stretch = commonStretch(mine, other.edge);
      if (stretch) stretches.push(stretch);
    }
  }
  return stretches;
}

export type Straightness =
  | { readonly kind: 'none' }
  | { readonly kind: 'straight'; readonly stretch: Segment }
  | { readonly kind: 'broken' }
  | { readonly kind: 'bent' };

/**
 * Are these pieces together one straight, unbroken stretch? `straight` gives its ends; `bent` when some end
 * lies more than 0.1 mm off the line between the two furthest ends; `broken` when a gap of more than 0.1 mm is left, or
 * more than 0.1 mm is covered twice: round the tip of a sliver the boundary turns back on itself.
 */
export function asOneStretch(pieces: readonly Segment[]): Straightness {
  if (pieces.length === 0) return { kind: 'none' };
  const ends = pieces.flat();
  let [a, b] = [ends[0]!, ends[1]!];
  for (let i = 0; i < ends.length; i++) {
    for (let j = i + 1; j < ends.length; j++) {
      if (distance(ends[i]!, ends[j]!) > distance(a, b)) [a, b] = [ends[i]!, ends[j]!];
    }
  }
  if (ends.some((p) => distanceFromLine(p, a, b) > TENTH_MM_IN)) return { kind: 'bent' };
  const spans = pieces
    .map(([p, q]) => [along(p, a, b), along(q, a, b)].sort((s, t) => s - t) as [number, number])
    .sort((s, t) => s[0] - t[0]);
  let reached = spans[0]![0];
  for (const [from, to] of spans) {
    if (from - reached > TENTH_MM_IN || Math.min(to, reached) - from > TENTH_MM_IN) return { kind: 'broken' };
    reached = Math.max(reached, to);
  }
  return { kind: 'straight', stretch: [a, b] };
}

/**
 * Corners that a seam turns, from the pieces of the boundary it is sewn on: pieces are strung together as far as they run
 * straight on, and each stretch but one follows another; where they go all the way round, every one does.
 */
export function cornersAlong(pieces: readonly Segment[]): number {
  const stretches = pieces.map((piece) => [piece]);
  for (let merged = true; merged; ) {
    merged = false;
    for (let i = 0; i < stretches.length && !merged; i++)
      for (let j = i + 1; j < stretches.length && !merged; j++) {
        if (asOneStretch([...stretches[i]!, ...stretches[j]!]).kind !== 'straight') continue;
        stretches[i]!.push(...stretches[j]!);
        stretches.splice(j, 1);
        merged = true;
      }
  }
  const ends = stretches.flatMap((stretch) => {
    const whole = asOneStretch(stretch);
    return whole.kind === 'straight' ? [...whole.stretch] : [];
  });
  const goesRound =
    stretches.length > 2 &&
    ends.every(
      (end, i) => ends.filter((other, j) => i !== j && distance(end, other) <= TENTH_MM_IN).length === 1,
    );
  return stretches.length - (goesRound ? 0 : 1);
}

/** Do two stretches have the same two ends, in either turn, within 0.1 mm? */
export const sameStretch = ([a, b]: Segment, [c, d]: Segment): boolean =>
  (distance(a, c) <= TENTH_MM_IN && distance(b, d) <= TENTH_MM_IN) ||
  (distance(a, d) <= TENTH_MM_IN && distance(b, c) <= TENTH_MM_IN);

export const lengthOf = ([a, b]: Segment): number => distance(a, b);

/** Do two edges cross, each strictly on both sides of the other? Exact for lattice points within 100 in. */
export function edgesCross([a, b]: Segment, [c, d]: Segment): boolean {
  const side = (p: Point, q: Point, r: Point): number =>
    Math.sign((q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]));
  return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
}
