import type { Area } from './inner-spot.ts';
import { loopsOf } from './loops.ts';
import { type Net, nodeLines, type Stray } from './noding.ts';
import type { Point, Ring, Segment } from './point.ts';
import { contains } from './ring.ts';
import { strayParts } from './strays.ts';

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

export type DivideResult =
  | { readonly ok: true; readonly division: Division }
  /** `too-many`: more crossings than `MAX_VERTICES`, or too many lines on one spot. `tangled`: lines so close that no faces can be told apart. */
  | { readonly ok: false; readonly fault: 'too-many' | 'tangled' };

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
  const net = nodeLines(outline, lines);
  if (net === 'too-many') return { ok: false, fault: 'too-many' };
  const division = trace(net, outline, lines);
  return division ? { ok: true, division } : { ok: false, fault: 'tangled' };
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
    if (!contains(outline, [mx, my])) isOutside[e] = 1;
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

/** The faces as bare areas, in their own order. */
export const areasOf = (division: Division): readonly Area[] =>
  division.faces.map(({ edge, islands }) => ({
    polygon: ringOf(division, edge),
    holes: islands.map((island) => ringOf(division, island)),
  }));

/**
 * Does the vertex a half-edge starts from stand only in the middle of one line, parting nothing? Where a line bends to
 * what it touches, what lies between may have its third corner there, and keeps it.
 */
export const isPassedThrough = (division: Division, h: number): boolean =>
  isMidLine(division, h) && hasCorners(division, h) && hasCorners(division, h ^ 1);

function isMidLine({ next, previous, line }: Division, h: number): boolean {
  const before = previous[h]!;
  return line[before >> 1] === line[h >> 1] && next[h ^ 1] === (before ^ 1);
}

/** Are there three corners round a loop besides the vertices that lines only pass through? */
function hasCorners(division: Division, start: number): boolean {
  let corners = 0;
  let h = start;
  do {
    if (!isMidLine(division, h) && ++corners === 3) return true;
    h = division.next[h]!;
  } while (h !== start);
  return false;
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
