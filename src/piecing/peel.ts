import { isOneStretch } from '../geometry/one-stretch.ts';
import type { Segment } from '../geometry/point.ts';
import { farthestPair } from '../geometry/ring.ts';
import type { Pattern } from './pattern.ts';
import { cellsOf, isConnected, type Region } from './region.ts';

/** How a cell touches the rest: along nothing, along one straight unbroken stretch, or along more than that. */
export type Contact =
  | { readonly kind: 'none' | 'bent' }
  /** Half-edges of the cell along the stretch, in turn. */
  | { readonly kind: 'straight'; readonly edges: readonly number[] };

const NONE: Contact = { kind: 'none' };
const BENT: Contact = { kind: 'bent' };

/** How cell `c` touches the other cells of a region. Cost: O(sides of the cell). */
export function contactOf(pattern: Pattern, region: Region, c: number): Contact {
  if (pattern.isBlurred) return measuredContact(pattern, region, c);
  const { division, loops, straight } = pattern;
  const { face } = division;
  let found: number[] | null = null;
  for (const loop of loops[c]!) {
    const n = loop.length;
    // A run starts where a touching side follows one that does not.
    let begin = -1;
    let any = false;
    let before = touches(face[loop[n - 1]! ^ 1]!, region, c);
    for (let k = 0; k < n; k++) {
      const here = touches(face[loop[k]! ^ 1]!, region, c);
      if (here) {
        any = true;
        if (!before) {
          if (begin >= 0) return BENT;
          begin = k;
        }
      }
      before = here;
    }
    if (!any) continue;
    if (begin < 0 || found) return BENT;
    found = [];
    const line = straight[loop[begin]! >> 1]!;
    for (let k = begin; touches(face[loop[k % n]! ^ 1]!, region, c); k++) {
      const h = loop[k % n]!;
      if (straight[h >> 1] !== line) return BENT;
      if (found.length > 0 && (foldsBack(pattern, found.at(-1)!, h) || foldsBack(pattern, found[0]!, h)))
        return BENT;
      found.push(h);
    }
  }
  return found ? { kind: 'straight', edges: found } : NONE;
}

/** The same by the rule itself, where lines run so close that which one an edge lies on says too little. */
function measuredContact({ division, loops }: Pattern, region: Region, c: number): Contact {
  const { face, origin, vertices } = division;
  const edges = loops[c]!.flatMap((loop) => Array.from(loop).filter((h) => touches(face[h ^ 1]!, region, c)));
  if (edges.length === 0) return NONE;
  const stretches = edges.map((h): Segment => [vertices[origin[h]!]!, vertices[origin[h ^ 1]!]!]);
  if (!isOneStretch(stretches)) return BENT;
  const [[ax, ay], [bx, by]] = farthestPair(stretches.flat());
  const along = (h: number): number => {
    const [x, y] = vertices[origin[h]!]!;
    return (x - ax) * (bx - ax) + (y - ay) * (by - ay);
  };
  const ahead = edges.reduce((sum, h) => sum + along(h ^ 1) - along(h), 0);
  const turn = ahead >= 0 ? 1 : -1;
  return { kind: 'straight', edges: edges.sort((h, k) => turn * (along(h) - along(k))) };
}

/** Is the cell beyond a side of cell `c` one of the others in the region? */
const touches = (beyond: number, region: Region, c: number): boolean =>
  beyond >= 0 && beyond !== c && region[beyond] === 1;

/** A sliver may have one straight line on both its long sides; round its tip the line turns back on itself. */
function foldsBack(pattern: Pattern, h: number, k: number): boolean {
  const { origin, vertices } = pattern.division;
  const [a, b] = [vertices[origin[h]!]!, vertices[origin[h ^ 1]!]!];
  const [c, d] = [vertices[origin[k]!]!, vertices[origin[k ^ 1]!]!];
  return (b[0] - a[0]) * (d[0] - c[0]) + (b[1] - a[1]) * (d[1] - c[1]) < 0;
}

/** May cell `c` come off last: does it touch the rest along one straight stretch, and does the rest hold together? */
export function isPeelable(pattern: Pattern, region: Region, c: number): boolean {
  const contact = contactOf(pattern, region, c);
  return contact.kind === 'straight' && restHolds(pattern, region, c, contact.edges);
}

/**
 * Do the cells beyond a straight contact hold together without cell `c`? Where all that lies round its inner
 * vertices belongs to the region they do; only at a gap or a tip of the outline must the whole be walked.
 */
function restHolds(pattern: Pattern, region: Region, c: number, edges: readonly number[]): boolean {
  if (pattern.isBlurred) return isConnectedWithout(pattern, region, c);
  const { face, previous } = pattern.division;
  for (let k = 0; k + 1 < edges.length; k++) {
    // Round the vertex between two sides, on the far side, from the twin of the first to the twin of the second.
    let h = edges[k]! ^ 1;
    const goal = edges[k + 1]! ^ 1;
    for (;;) {
      const before = previous[h]!;
      if (before === goal) break;
      h = before ^ 1;
      const cell = face[h]!;
      if (cell < 0 || region[cell] !== 1 || cell === c) return isConnectedWithout(pattern, region, c);
    }
  }
  return true;
}

/** Does a region that holds together do so without cell `c`? True when nothing else is in it. */
export function holdsWithout(pattern: Pattern, region: Region, c: number): boolean {
  const { face } = pattern.division;
  const [loop, island] = pattern.loops[c]!;
  if (!loop || island) return isConnectedWithout(pattern, region, c);
  const n = loop.length;
  let begin = -1;
  let count = 0;
  for (let k = 0; k < n; k++) {
    if (!touches(face[loop[k]! ^ 1]!, region, c)) continue;
    count++;
    if (touches(face[loop[(k + n - 1) % n]! ^ 1]!, region, c)) continue;
    // More than one run of sides: what lies between them may be all that holds the others together.
    if (begin >= 0) return isConnectedWithout(pattern, region, c);
    begin = k;
  }
  const edges: number[] = [];
  for (let k = 0; k < count; k++) edges.push(loop[(Math.max(0, begin) + k) % n]!);
  return restHolds(pattern, region, c, edges);
}

function isConnectedWithout(pattern: Pattern, region: Region, c: number): boolean {
  const rest = region.slice();
  rest[c] = 0;
  return isConnected(pattern, rest);
}

/**
 * What is left when every cell that can come off has come off: one cell when the region sews on one foundation,
 * else the knot. Taking one off never spoils another, so the order they come off in does not matter.
 * Cost: O(sides) tests, each O(sides of a cell).
 */
export function knotOf(pattern: Pattern, region: Region): number[] {
  const { left } = peeled(pattern, region);
  return cellsOf(left);
}

/** The cells that come off, in turn, and what is left. */
export function peeled(pattern: Pattern, region: Region): { taken: readonly number[]; left: Region } {
  const { face } = pattern.division;
  const left = region.slice();
  const taken: number[] = [];
  const waiting: number[] = [];
  const isWaiting = new Uint8Array(pattern.cells);
  let count = 0;
  for (let c = 0; c < left.length; c++) {
    if (left[c] !== 1) continue;
    count++;
    waiting.push(c);
    isWaiting[c] = 1;
  }
  while (waiting.length > 0 && count > 1) {
    const c = waiting.pop()!;
    isWaiting[c] = 0;
    if (left[c] !== 1 || !isPeelable(pattern, left, c)) continue;
    left[c] = 0;
    taken.push(c);
    count--;
    for (const loop of pattern.loops[c]!)
      for (const h of loop) {
        const beyond = face[h ^ 1]!;
        if (beyond >= 0 && left[beyond] === 1 && !isWaiting[beyond]) {
          waiting.push(beyond);
          isWaiting[beyond] = 1;
        }
      }
  }
  return { taken, left };
}

export const sewsOnOneFoundation = (pattern: Pattern, region: Region): boolean =>
  !holdsStuck(pattern, region) && knotOf(pattern, region).length === 1;

function holdsStuck({ stuck }: Pattern, region: Region): boolean {
  for (const cells of stuck) {
    let k = 0;
    while (k < cells.length && region[cells[k]!] === 1) k++;
    if (k === cells.length) return true;
  }
  return false;
}
