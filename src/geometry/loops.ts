import type { Net } from './noding.ts';

/** Half-edges strung to loops, each turning round one side of the drawing. */
export interface Loops {
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

/** Strings the kept edges of a net to loops, turning as sharply as can be at every vertex. Exact in all its signs. */
export function loopsOf(net: Net, kept: readonly number[]): Loops {
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
