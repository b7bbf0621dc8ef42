import { CellIndex } from './cell-index.ts';
import { LATTICE_STEPS_PER_IN, STRAIGHT_IN, snap, TOUCH_IN } from './lattice.ts';
import type { Point, Ring, Segment } from './point.ts';
import { boxOf, signedArea } from './ring.ts';

/**
 * A region divided by straight lines, as half-edges over flat arrays.
 *
 * Half-edges come in pairs `h` and `h ^ 1`, one for each direction of an edge; edge `h >> 1`. The face of a
 * half-edge lies on the side that makes the face's shoelace area positive. A vertex is made once: a T-junction
 * stands in the loops of all faces that meet there.
 */
export interface Division {
  readonly vertices: readonly Point[];
  /** Vertex a half-edge starts from; it ends where `h ^ 1` starts. */
  readonly origin: Int32Array;
  /** The half-edge after this one round its face; `previous` the one before. */
  readonly next: Int32Array;
  readonly previous: Int32Array;
  /** Face of a half-edge, `OUTSIDE` beyond the outline. */
  readonly face: Int32Array;
  /** Line an edge lies on, by index in the input; side i of the outline is `-1 - i`. Recorded, never measured. */
  readonly line: Int32Array;
  readonly faces: readonly Face[];
  /** What the lines hold that divides nothing. */
  readonly strays: readonly Stray[];
}

export interface Face {
  /** A half-edge of its outer loop. */
  readonly edge: number;
  /** A half-edge of the loop round each island in it. */
  readonly islands: readonly number[];
}

export const OUTSIDE = -1;

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

export type DivideResult =
  | { readonly ok: true; readonly division: Division }
  /** `too-many`: more crossings than `MAX_VERTICES`, or too many lines on one spot. `tangled`: lines so close that no faces can be told apart. */
  | { readonly ok: false; readonly fault: 'too-many' | 'tangled' };

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

/**
 * Divides the region inside an outline by straight lines.
 *
 * Input: an outline that passes `outlineFault`, lines in any order, inches; all is snapped to the lattice here.
 * An end within 0.05 mm of a line is moved onto it; spots within 0.05 mm of each other become one vertex.
 * Result: faces in reading order (top to bottom, then left to right, by their topmost spot), and the strays.
 * Cost: about O((n + crossings) log n) for evenly spread lines.
 * Source: half-edges as in de Berg et al., Computational Geometry, ch. 2; vertices close to a line are put on
 * it as in snap rounding (Hobby 1999), with a tolerance instead of a pixel.
 */
export function divide(outline: Ring, lines: readonly Segment[]): DivideResult {
  const first = node(outline, lines);
  if (first === 'too-many') return { ok: false, fault: 'too-many' };
  const division = trace(first, outline, lines);
  return division ? { ok: true, division } : { ok: false, fault: 'tangled' };
}

/** The noded drawing: vertices, and edges between them that meet at vertices only. */
interface Net {
  readonly x: number[];
  readonly y: number[];
  readonly from: number[];
  readonly to: number[];
  readonly line: number[];
  /** First and last vertex along each line that was put in; -1 for none. */
  readonly strays: Stray[];
}

function node(outline: Ring, lines: readonly Segment[]): Net | 'too-many' {
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
    if (Math.hypot(bx[i]! - ax[i]!, by[i]! - ay[i]!) <= TOUCH_IN)
      strays.push({ kind: 'too-short', line: k, other: null, at: [ax[i]!, ay[i]!] });
    else live[i] = 1;
  }

  const index = new CellIndex(box, count, REACH_IN);
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
    index.visitSegmentsNear(px, py, REACH_IN, (j) => {
      const ex = bx[j]! - ax[j]!;
      const ey = by[j]! - ay[j]!;
      const across = ex * (py - ay[j]!) - ey * (px - ax[j]!);
      if (across * across <= REACH_IN * REACH_IN * (ex * ex + ey * ey)) put(j, v, false);
    });
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

/** Edges → loops → faces, leaving out what lies outside and what parts nothing. Null when loops do not nest. */
function trace(net: Net, outline: Ring, lines: readonly Segment[]): Division | null {
  const { x, y } = net;
  const strays = net.strays.slice();
  const total = net.from.length;
  const isOutside = new Uint8Array(total);
  for (let e = 0; e < total; e++) {
    if (net.line[e]! < 0) continue;
    const mx = (x[net.from[e]!]! + x[net.to[e]!]!) / 2;
    const my = (y[net.from[e]!]! + y[net.to[e]!]!) / 2;
    if (!inside(outline, mx, my)) isOutside[e] = 1;
  }
  let kept: number[] = [];
  for (let e = 0; e < total; e++) if (!isOutside[e]) kept.push(e);
  let loops = loopsOf(net, kept);
  // An edge with one loop on both its sides parts nothing: a loose end, or a bridge to an island.
  const idle = kept.filter((_, k) => loops.loop[2 * k] === loops.loop[2 * k + 1]);
  if (idle.length > 0) {
    const isIdle = new Set(idle);
    kept = kept.filter((e) => !isIdle.has(e));
    loops = loopsOf(net, kept);
  }
  strays.push(...strayParts(net, lines, isOutside, idle, kept));

  const { origin, next, previous, loop, loopEdge, loopArea } = loops;
  const outer: number[] = [];
  const turned: number[] = [];
  for (let l = 0; l < loopEdge.length; l++) (loopArea[l]! > 0 ? outer : turned).push(l);
  // One connected drawing has one loop that turns the other way: its outside. More of them are islands.
  if (turned.length !== loops.components) return null;
  const faceOfLoop = new Int32Array(loopEdge.length).fill(OUTSIDE);
  const topmost = outer.map((l) => {
    let best = loopEdge[l]!;
    let h = best;
    do {
      const v = origin[h]!;
      const b = origin[best]!;
      if (y[v]! < y[b]! || (y[v] === y[b] && x[v]! < x[b]!)) best = h;
      h = next[h]!;
    } while (h !== loopEdge[l]);
    return best;
  });
  const inReadingOrder = outer
    .map((l, k) => ({ l, h: topmost[k]! }))
    .sort((p, q) => {
      const a = origin[p.h]!;
      const b = origin[q.h]!;
      // Faces sharing their topmost spot are told apart by where they lean: leftmost first.
      return y[a]! - y[b]! || x[a]! - x[b]! || lean(q.h) - lean(p.h) || p.l - q.l;
    });
  function lean(h: number): number {
    const a = origin[h]!;
    const b = origin[previous[h]!]!;
    return Math.atan2(y[b]! - y[a]!, x[b]! - x[a]!);
  }
  const islands: number[][] = [];
  inReadingOrder.forEach(({ l }, f) => {
    faceOfLoop[l] = f;
    islands.push([]);
  });
  const facesEdge = inReadingOrder.map(({ h }) => h);
  for (const l of turned) {
    const h = loopEdge[l]!;
    if (loops.component[h] === loops.outlineComponent) continue;
    const host = faceAround(h);
    if (host < 0) return null;
    faceOfLoop[l] = host;
    islands[host]!.push(h);
  }
  function faceAround(h: number): number {
    const at: Point = [x[origin[h]!]!, y[origin[h]!]!];
    let best = -1;
    let bestArea = Number.POSITIVE_INFINITY;
    inReadingOrder.forEach(({ l }, f) => {
      if (loops.component[loopEdge[l]!] === loops.component[h] || loopArea[l]! >= bestArea) return;
      let isIn = false;
      let e = loopEdge[l]!;
      do {
        const a = origin[e]!;
        const b = origin[e ^ 1]!;
        if (y[a]! > at[1] !== y[b]! > at[1]) {
          if (at[0] < ((x[b]! - x[a]!) * (at[1] - y[a]!)) / (y[b]! - y[a]!) + x[a]!) isIn = !isIn;
        }
        e = next[e]!;
      } while (e !== loopEdge[l]);
      if (isIn) {
        best = f;
        bestArea = loopArea[l]!;
      }
    });
    return best;
  }
  const face = new Int32Array(origin.length);
  for (let h = 0; h < origin.length; h++) face[h] = faceOfLoop[loop[h]!]!;
  const line = new Int32Array(kept.length);
  for (let k = 0; k < kept.length; k++) line[k] = net.line[kept[k]!]!;
  return {
    vertices: x.map((px, v): Point => [px, y[v]!]),
    origin,
    next,
    previous,
    face,
    line,
    faces: facesEdge.map((edge, f) => ({ edge, islands: islands[f]! })),
    strays,
  };
}

function inside(outline: Ring, px: number, py: number): boolean {
  let isIn = false;
  for (let i = 0, j = outline.length - 1; i < outline.length; j = i++) {
    const a = outline[i]!;
    const b = outline[j]!;
    if (a[1] > py !== b[1] > py && px < ((b[0] - a[0]) * (py - a[1])) / (b[1] - a[1]) + a[0]) isIn = !isIn;
  }
  return isIn;
}

interface Loops {
  readonly origin: Int32Array;
  readonly next: Int32Array;
  readonly previous: Int32Array;
  readonly loop: Int32Array;
  readonly loopEdge: number[];
  /** Twice the signed area. */
  readonly loopArea: number[];
  /** Connected drawing a half-edge belongs to, and how many there are. */
  readonly component: Int32Array;
  readonly components: number;
  readonly outlineComponent: number;
}

function loopsOf(net: Net, kept: readonly number[]): Loops {
  const { x, y } = net;
  const halfEdges = 2 * kept.length;
  const origin = new Int32Array(halfEdges);
  for (let k = 0; k < kept.length; k++) {
    origin[2 * k] = net.from[kept[k]!]!;
    origin[2 * k + 1] = net.to[kept[k]!]!;
  }
  const start = new Int32Array(x.length + 1);
  for (let h = 0; h < halfEdges; h++) start[origin[h]! + 1]!++;
  for (let v = 0; v < x.length; v++) start[v + 1]! += start[v]!;
  const fill = start.slice();
  const around = new Int32Array(halfEdges);
  for (let h = 0; h < halfEdges; h++) around[fill[origin[h]!]!++] = h;
  const next = new Int32Array(halfEdges);
  const previous = new Int32Array(halfEdges);
  for (let v = 0; v < x.length; v++) {
    const begin = start[v]!;
    const end = start[v + 1]!;
    for (let k = begin + 1; k < end; k++) {
      const h = around[k]!;
      let m = k;
      while (m > begin && isBefore(h, around[m - 1]!)) {
        around[m] = around[m - 1]!;
        m--;
      }
      around[m] = h;
    }
    // Arriving along the twin of an outgoing half-edge, the face goes on along the one before it in the turn.
    for (let k = begin; k < end; k++) {
      const h = around[k]!;
      const before = around[k === begin ? end - 1 : k - 1]!;
      next[h ^ 1] = before;
      previous[before] = h ^ 1;
    }
  }

  const loop = new Int32Array(halfEdges).fill(-1);
  const loopEdge: number[] = [];
  const loopArea: number[] = [];
  for (let h = 0; h < halfEdges; h++) {
    if (loop[h]! >= 0) continue;
    let area = 0;
    const ox = x[origin[h]!]!;
    const oy = y[origin[h]!]!;
    let e = h;
    do {
      loop[e] = loopEdge.length;
      const a = origin[e]!;
      const b = origin[e ^ 1]!;
      area += (x[a]! - ox) * (y[b]! - oy) - (y[a]! - oy) * (x[b]! - ox);
      e = next[e]!;
    } while (e !== h);
    loopEdge.push(h);
    loopArea.push(area);
  }

  const component = new Int32Array(halfEdges).fill(-1);
  let components = 0;
  let outlineComponent = 0;
  const stack: number[] = [];
  for (let h = 0; h < halfEdges; h++) {
    if (component[h]! >= 0) continue;
    component[h] = components;
    stack.push(h);
    while (stack.length > 0) {
      const e = stack.pop()!;
      if (net.line[kept[e >> 1]!]! < 0) outlineComponent = components;
      for (const other of [e ^ 1, next[e]!]) {
        if (component[other]! >= 0) continue;
        component[other] = components;
        stack.push(other);
      }
    }
    components++;
  }
  return { origin, next, previous, loop, loopEdge, loopArea, component, components, outlineComponent };

  /** Order by angle round a common origin, from the positive x direction, by exact signs. */
  function isBefore(h: number, k: number): boolean {
    const ux = x[origin[h ^ 1]!]! - x[origin[h]!]!;
    const uy = y[origin[h ^ 1]!]! - y[origin[h]!]!;
    const wx = x[origin[k ^ 1]!]! - x[origin[k]!]!;
    const wy = y[origin[k ^ 1]!]! - y[origin[k]!]!;
    const upperU = uy > 0 || (uy === 0 && ux > 0);
    const upperW = wy > 0 || (wy === 0 && wx > 0);
    if (upperU !== upperW) return upperU;
    return ux * wy - uy * wx > 0;
  }
}

/** What of each line was left out, said once a line and kind. */
function strayParts(
  net: Net,
  lines: readonly Segment[],
  isOutside: Uint8Array,
  idle: readonly number[],
  kept: readonly number[],
): Stray[] {
  const { x, y } = net;
  const keptOf = new Uint8Array(lines.length);
  for (const e of kept) if (net.line[e]! >= 0) keptOf[net.line[e]!] = 1;
  const overlapped = new Set(net.strays.filter((s) => s.kind === 'overlap').map((s) => s.line));
  const strays: Stray[] = [];
  const reached = new Set(idle.length > 0 ? kept.flatMap((e) => [net.from[e]!, net.to[e]!]) : []);
  const idleOf = new Map<number, number[]>();
  for (const e of idle) {
    const l = net.line[e]!;
    idleOf.set(l, [...(idleOf.get(l) ?? []), e]);
  }
  for (const [l, edges] of idleOf) {
    if (keptOf[l]) {
      // Of a part that leads nowhere, the end is a vertex no kept edge reaches; a bridge has its middle.
      const ends = edges.flatMap((e) => [net.from[e]!, net.to[e]!]);
      const tips = ends.filter((v) => !reached.has(v) && ends.filter((w) => w === v).length === 1);
      for (const tip of tips.length > 0 ? tips : ends.slice(0, 1))
        strays.push({ kind: 'loose-end', line: l, other: null, at: [x[tip]!, y[tip]!] });
    } else {
      const [a, b] = lines[l]!;
      strays.push({ kind: 'idle', line: l, other: null, at: [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2] });
    }
  }
  const isSaid = new Set<number>();
  const onRim = new Set(isOutside.includes(1) ? kept.flatMap((e) => [net.from[e]!, net.to[e]!]) : []);
  for (let e = 0; e < isOutside.length; e++) {
    const l = net.line[e]!;
    if (!isOutside[e] || isSaid.has(l)) continue;
    const leaves = [net.from[e]!, net.to[e]!].find((v) => onRim.has(v));
    const isLastOfLine = !isOutside.slice(e + 1).some((is, k) => is === 1 && net.line[e + 1 + k] === l);
    // Told where the line leaves the region, on the first of its outside edges that starts there.
    if (leaves === undefined && !isLastOfLine) continue;
    isSaid.add(l);
    const isSomewhere = keptOf[l] || idleOf.has(l) || overlapped.has(l);
    const [a, b] = lines[l]!;
    strays.push(
      isSomewhere
        ? {
            kind: 'past-outline',
            line: l,
            other: null,
            at: [x[leaves ?? net.to[e]!]!, y[leaves ?? net.to[e]!]!],
          }
        : { kind: 'outside', line: l, other: null, at: [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2] },
    );
  }
  return strays;
}

/**
 * The ring of vertices round a loop, from the half-edge given. A vertex that only stands in the middle of one
 * line, where a part was left out, is dropped; so both faces beside an edge keep the same vertices.
 */
export function ringOf(division: Division, start: number): Ring {
  const ring: Point[] = [];
  let h = start;
  do {
    if (!isPassedThrough(division, h)) ring.push(division.vertices[division.origin[h]!]!);
    h = division.next[h]!;
  } while (h !== start);
  return ring;
}

/** Does the vertex a half-edge starts from stand only in the middle of one line, parting nothing? */
export function isPassedThrough({ next, previous, line }: Division, h: number): boolean {
  const before = previous[h]!;
  return line[before >> 1] === line[h >> 1] && next[h ^ 1] === (before ^ 1);
}

/** All half-edges of a loop, from the one given. */
export function loopFrom(division: Division, start: number): number[] {
  const loop: number[] = [];
  let h = start;
  do {
    loop.push(h);
    h = division.next[h]!;
  } while (h !== start);
  return loop;
}
