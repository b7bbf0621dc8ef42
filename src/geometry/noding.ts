import { CellIndex } from './cell-index.ts';
import { LATTICE_STEPS_PER_IN, STRAIGHT_IN, snap, TOUCH_IN } from './lattice.ts';
import type { Point, Ring, Segment } from './point.ts';
import { boxOf, lengthOf, signedArea } from './ring.ts';

/**
 * - `not-a-number`, `too-short`: no line at all (`too-short`: both ends at one spot).
 * - `outside`: nowhere inside the outline. `past-outline`: an end runs on beyond it.
 * - `idle`: touches too little to part anything. `loose-end`: a part that leads nowhere, `at` its end.
 * - `overlap`: lies on another line (`other`) or on the outline (`other` null) for a stretch.
 */
export interface Stray {
  readonly kind: 'not-a-number' | 'too-short' | 'outside' | 'past-outline' | 'idle' | 'loose-end' | 'overlap';
  readonly line: number;
  readonly other: number | null;
  readonly at: Point;
}

/** More vertices than this and the drawing is refused: some hundred times the largest block ever sewn. */
export const MAX_VERTICES = 50_000;

/** More lines than this through one spot, or over one another, and the drawing is refused. */
export const MAX_LINES_ON_A_SPOT = 200;

/** Pairs of segments looked at before a drawing is refused as too thick: some seconds of work. */
const MAX_PAIRS = 20_000_000;

/** Vertices put on segments before a drawing is refused. */
const MAX_PUTS = 2_000_000;

/** Distance within which a vertex is put on a line: the touch tolerance and the rounding of a merged vertex. */
const REACH_IN = TOUCH_IN + 2 / LATTICE_STEPS_PER_IN;

/** The noded drawing: vertices, and edges between them that meet at vertices only. */
export interface Net {
  readonly x: number[];
  readonly y: number[];
  readonly from: number[];
  readonly to: number[];
  /** Line of each edge by index; side i of the outline is `-1 - i`. */
  readonly line: number[];
  /** What was seen on the way to divide nothing. */
  readonly strays: Stray[];
}

/**
 * Puts outline and lines together: ends onto the lines they touch, one vertex for every spot, an edge between
 * vertices that follow each other on a line. `too-many` when the drawing is too thick to divide.
 */
export function nodeLines(outline: Ring, lines: readonly Segment[]): Net | 'too-many' {
  const sides = outline.length;
  const count = sides + lines.length;
  const ax = new Float64Array(count);
  const ay = new Float64Array(count);
  const bx = new Float64Array(count);
  const by = new Float64Array(count);
  const live = new Uint8Array(count);
  const strays: Stray[] = [];
  // A face keeps a positive area only if the outline turns the right way round.
  const turned = signedArea(outline) < 0;
  for (let i = 0; i < sides; i++) {
    const a = outline[turned ? (sides - i) % sides : i]!;
    const b = outline[turned ? sides - 1 - i : (i + 1) % sides]!;
    ax[i] = snap(a[0]);
    ay[i] = snap(a[1]);
    bx[i] = snap(b[0]);
    by[i] = snap(b[1]);
    live[i] = 1;
  }
  const box = boxOf(outline);
  for (let k = 0; k < lines.length; k++) {
    const [a, b] = lines[k]!;
    const i = sides + k;
    if (!Number.isFinite(a[0] + a[1] + b[0] + b[1])) {
      strays.push({ kind: 'not-a-number', line: k, other: null, at: [box.minX, box.minY] });
      continue;
    }
    ax[i] = snap(a[0]);
    ay[i] = snap(a[1]);
    bx[i] = snap(b[0]);
    by[i] = snap(b[1]);
    if (lengthOf(bx[i]! - ax[i]!, by[i]! - ay[i]!) <= TOUCH_IN)
      strays.push({ kind: 'too-short', line: k, other: null, at: [ax[i]!, ay[i]!] });
    else live[i] = 1;
  }

  let across = 0;
  let down = 0;
  let living = 0;
  for (let i = 0; i < count; i++) {
    if (!live[i]) continue;
    living++;
    across += Math.min(Math.abs(bx[i]! - ax[i]!), box.maxX - box.minX);
    down += Math.min(Math.abs(by[i]! - ay[i]!), box.maxY - box.minY);
  }
  const index = new CellIndex(box, count, REACH_IN, across / living, down / living);
  for (let i = 0; i < count; i++) {
    if (!live[i]) continue;
    if (!index.addSegment(i, ax[i]!, ay[i]!, bx[i]!, by[i]!)) {
      live[i] = 0;
      strays.push({
        kind: 'outside',
        line: i - sides,
        other: null,
        at: [(ax[i]! + bx[i]!) / 2, (ay[i]! + by[i]!) / 2],
      });
    }
  }

  const x: number[] = [];
  const y: number[] = [];
  const vertexAt = (px: number, py: number): number => {
    const near = index.nearestPoint(px, py, TOUCH_IN, x, y);
    if (near >= 0) return near;
    x.push(px);
    y.push(py);
    index.addPoint(x.length - 1, px, py);
    return x.length - 1;
  };

  /** Vertex each segment starts and stops at, and which vertex stands where along which segment. */
  const first = new Int32Array(count);
  const last = new Int32Array(count);
  const onSegment: number[] = [];
  const onVertex: number[] = [];
  const onT: number[] = [];
  const along = (j: number, v: number): number => {
    const ex = bx[j]! - ax[j]!;
    const ey = by[j]! - ay[j]!;
    return ((x[v]! - ax[j]!) * ex + (y[v]! - ay[j]!) * ey) / (ex * ex + ey * ey);
  };
  const isCrossingOn: boolean[] = [];
  let pairs = 0;
  const put = (j: number, v: number, isCrossing: boolean): void => {
    onSegment.push(j);
    onVertex.push(v);
    onT.push(along(j, v));
    isCrossingOn.push(isCrossing);
  };

  // Corners come first, then crossings, then ends: what is drawn as a meeting draws loose ends to itself.
  for (let i = 0; i < sides; i++) vertexAt(ax[i]!, ay[i]!);
  for (let i = 0; i < sides; i++) {
    first[i] = i;
    last[i] = (i + 1) % sides;
  }
  for (let i = sides; i < count; i++) {
    if (!live[i]) continue;
    const iax = ax[i]!;
    const iay = ay[i]!;
    const dx = bx[i]! - iax;
    const dy = by[i]! - iay;
    pairs += index.visitNeighbours(i, (j) => {
      const jax = ax[j]!;
      const jay = ay[j]!;
      const ex = bx[j]! - jax;
      const ey = by[j]! - jay;
      const sideA = ex * (iay - jay) - ey * (iax - jax);
      const sideB = ex * (by[i]! - jay) - ey * (bx[i]! - jax);
      if (sideA > 0 === sideB > 0 || sideA === 0 || sideB === 0) return;
      const sideC = dx * (jay - iay) - dy * (jax - iax);
      const sideD = dx * (by[j]! - iay) - dy * (bx[j]! - iax);
      if (sideC > 0 === sideD > 0 || sideC === 0 || sideD === 0) return;
      const t = sideA / (sideA - sideB);
      const px = snap(iax + t * dx);
      const py = snap(iay + t * dy);
      let v = index.nearestPoint(px, py, TOUCH_IN, x, y);
      if (v < 0) {
        // A crossing that touches the outline is put on it: the outline never bends to a cut.
        const [atX, atY] = (j >= sides && ontoNearest(px, py, (k) => k < sides)) || [px, py];
        v = vertexAt(atX, atY);
      }
      put(i, v, true);
      put(j, v, true);
    });
    if (x.length > MAX_VERTICES || pairs > MAX_PAIRS || onSegment.length > MAX_PUTS) return 'too-many';
  }
  for (let i = sides; i < count; i++) {
    if (!live[i]) continue;
    for (let end = 0; end < 2; end++) {
      const px = end === 0 ? ax[i]! : bx[i]!;
      const py = end === 0 ? ay[i]! : by[i]!;
      let v = index.nearestPoint(px, py, TOUCH_IN, x, y);
      if (v < 0) {
        // The end that touches a line is moved onto it, so that the line it touches stays straight.
        const [atX, atY] = ontoNearest(px, py, (j) => j < sides) ??
          ontoNearest(px, py, (j) => j !== i) ?? [px, py];
        v = vertexAt(atX, atY);
      }
      if (end === 0) first[i] = v;
      else last[i] = v;
    }
    if (first[i] !== last[i]) continue;
    live[i] = 0;
    strays.push({ kind: 'too-short', line: i - sides, other: null, at: [ax[i]!, ay[i]!] });
  }
  if (x.length > MAX_VERTICES) return 'too-many';

  // Every vertex within reach of a segment is put on it; sorted along the segment they give its edges.
  for (let v = 0; v < x.length; v++) {
    const px = x[v]!;
    const py = y[v]!;
    let side = -1;
    let least2 = Number.POSITIVE_INFINITY;
    index.visitSegmentsNear(px, py, REACH_IN, (j) => {
      const ex = bx[j]! - ax[j]!;
      const ey = by[j]! - ay[j]!;
      const across = ex * (py - ay[j]!) - ey * (px - ax[j]!);
      const off2 = (across * across) / (ex * ex + ey * ey);
      if (off2 > REACH_IN * REACH_IN) return;
      if (v < sides || j >= sides) put(j, v, false);
      else if (off2 < least2 && along(j, v) > 0 && along(j, v) < 1) {
        side = j;
        least2 = off2;
      }
    });
    // By a sharp corner only on the nearer side: on both it would draw them together, and the corner would be lost.
    if (side >= 0) put(side, v, false);
  }
  const start = new Int32Array(count + 1);
  for (const j of onSegment) start[j + 1]!++;
  for (let j = 0; j < count; j++) start[j + 1]! += start[j]!;
  const fill = start.slice();
  const entry = new Int32Array(onSegment.length);
  for (let k = 0; k < onSegment.length; k++) entry[fill[onSegment[k]!]!++] = k;

  const from: number[] = [];
  const to: number[] = [];
  const line: number[] = [];
  const head = new Int32Array(x.length).fill(-1);
  const chain: number[] = [];
  const overlapSeen = new Set<number>();
  for (let j = 0; j < count; j++) {
    if (!live[j]) continue;
    const begin = start[j]!;
    const end = start[j + 1]!;
    for (let k = begin + 1; k < end; k++) {
      const e = entry[k]!;
      let m = k;
      while (m > begin && onT[entry[m - 1]!]! > onT[e]!) {
        entry[m] = entry[m - 1]!;
        m--;
      }
      entry[m] = e;
    }
    const fromT = along(j, first[j]!);
    const toT = along(j, last[j]!);
    let u = first[j]!;
    for (let k = begin; k <= end; k++) {
      // Crossings, and what else stands between its ends; a vertex just past an end belongs to other lines.
      const e = k < end ? entry[k]! : -1;
      if (e >= 0 && !isCrossingOn[e] && (onT[e]! <= fromT || onT[e]! >= toT)) continue;
      const v = e < 0 ? last[j]! : onVertex[e]!;
      if (u === v) continue;
      const twin = edgeBetween(u, v);
      if (twin >= 0) {
        const owner = line[twin]!;
        const stretch = (x[u]! - x[v]!) ** 2 + (y[u]! - y[v]!) ** 2;
        const pair = j * count + owner + sides;
        if (owner !== j - sides && stretch > STRAIGHT_IN * STRAIGHT_IN && !overlapSeen.has(pair)) {
          overlapSeen.add(pair);
          strays.push({
            kind: 'overlap',
            line: j - sides,
            other: owner >= 0 ? owner : null,
            at: [(x[u]! + x[v]!) / 2, (y[u]! + y[v]!) / 2],
          });
        }
        // An edge on two lines belongs to the one it lies closer to; the outline keeps its own.
        if (
          owner >= 0 &&
          j >= sides &&
          strayOf(j, u, v) < strayOf(owner + sides, u, v) - 1 / LATTICE_STEPS_PER_IN
        )
          line[twin] = j - sides;
      } else addEdge(u, v, j < sides ? -1 - j : j - sides);
      u = v;
    }
  }
  const degree = new Int32Array(x.length);
  for (let e = 0; e < from.length; e++) {
    degree[from[e]!]!++;
    degree[to[e]!]!++;
  }
  if (degree.some((ends) => ends > 2 * MAX_LINES_ON_A_SPOT)) return 'too-many';
  return { x, y, from, to, line, strays };

  /** The spot moved onto the nearest of some segments, where one lies within the touch tolerance. */
  function ontoNearest(px: number, py: number, isMeant: (j: number) => boolean): Point | null {
    let best2 = TOUCH_IN * TOUCH_IN;
    let found: Point | null = null;
    index.visitSegmentsNear(px, py, TOUCH_IN, (j) => {
      if (!isMeant(j)) return;
      const ex = bx[j]! - ax[j]!;
      const ey = by[j]! - ay[j]!;
      const length2 = ex * ex + ey * ey;
      const across = ex * (py - ay[j]!) - ey * (px - ax[j]!);
      if (across * across > best2 * length2) return;
      const t = Math.max(0, Math.min(1, ((px - ax[j]!) * ex + (py - ay[j]!) * ey) / length2));
      const qx = ax[j]! + t * ex;
      const qy = ay[j]! + t * ey;
      const apart2 = (px - qx) * (px - qx) + (py - qy) * (py - qy);
      if (apart2 >= best2) return;
      best2 = apart2;
      found = [snap(qx), snap(qy)];
    });
    return found;
  }
  /** How far an edge strays from the line it is put on, inches. */
  function strayOf(j: number, u: number, v: number): number {
    const ex = bx[j]! - ax[j]!;
    const ey = by[j]! - ay[j]!;
    const across = (w: number): number => Math.abs(ex * (y[w]! - ay[j]!) - ey * (x[w]! - ax[j]!));
    return Math.max(across(u), across(v)) / Math.sqrt(ex * ex + ey * ey);
  }
  function edgeBetween(u: number, v: number): number {
    for (let h = head[u]!; h >= 0; h = chain[h]!) {
      const e = h >> 1;
      if ((h & 1 ? from[e] : to[e]) === v) return e;
    }
    return -1;
  }
  function addEdge(u: number, v: number, l: number): void {
    const e = from.length;
    from.push(u);
    to.push(v);
    line.push(l);
    chain.push(head[u]!, head[v]!);
    head[u] = 2 * e;
    head[v] = 2 * e + 1;
  }
}
