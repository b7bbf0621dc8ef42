import { distance } from '../geometry/ring.ts';
import type { Pattern } from './pattern.ts';
import { type Region, spread, without } from './region.ts';

/** A straight seam right across a region, and the two units it unites. */
export interface Parting {
  /** Half-edges along the seam, in turn, all with `left` on their face's side. */
  readonly edges: readonly number[];
  readonly left: Region;
  readonly right: Region;
  /** Spots where seams from both sides meet it. */
  readonly matches: number;
  /** Inches. */
  readonly length: number;
  /** Edges that run along a cut pinned to stay inside a foundation, counted by cut. */
  readonly refused: number;
}

/**
 * All straight seams that part a region in two: maximal straight runs of inner edges from rim to rim.
 * Cost: O(edges of the pattern + partings × sides of the region).
 */
export function partingsOf(pattern: Pattern, region: Region): Parting[] {
  const { division, lines } = pattern;
  const { face, origin } = division;
  const isRim = rimOf(pattern, region);
  const isInner = (h: number): boolean => region[face[h]!] === 1 && region[face[h ^ 1]!] === 1;
  const partings: Parting[] = [];
  for (const { runs } of lines)
    for (const run of runs) {
      let chain: number[] = [];
      for (const h of run) {
        if (!isInner(h)) {
          chain = [];
          continue;
        }
        if (chain.length === 0 && !isRim[origin[h]!]) continue;
        chain.push(h);
        if (!isRim[origin[h ^ 1]!]) continue;
        const parting = partAlong(pattern, region, chain);
        if (parting) partings.push(parting);
        chain = [];
      }
    }
  return partings;
}

/** Marks the vertices on the rim of a region: those an edge with only one side in it ends at. */
function rimOf(pattern: Pattern, region: Region): Uint8Array {
  const { face, origin, vertices } = pattern.division;
  const isRim = new Uint8Array(vertices.length);
  for (let h = 0; h < face.length; h += 2) {
    const a = face[h]! >= 0 && region[face[h]!] === 1;
    const b = face[h + 1]! >= 0 && region[face[h + 1]!] === 1;
    if (a !== b) {
      isRim[origin[h]!] = 1;
      isRim[origin[h + 1]!] = 1;
    }
  }
  return isRim;
}

function partAlong(pattern: Pattern, region: Region, chain: readonly number[]): Parting | null {
  const { division, role } = pattern;
  const { face, origin, vertices, line } = division;
  const isSeam = new Set(chain.map((h) => h >> 1));
  const left = spread(pattern, region, face[chain[0]!]!, (edge) => isSeam.has(edge));
  if (left[face[chain[0]! ^ 1]!] === 1) return null;
  const right = without(region, left);
  const refusedCuts = new Set<number>();
  let matches = 0;
  chain.forEach((h, k) => {
    if (role[h >> 1] === 2) refusedCuts.add(line[h >> 1]!);
    if (k > 0 && seamMeets(pattern, left, h) && seamMeets(pattern, right, h)) matches++;
  });
  return {
    edges: [...chain],
    left,
    right,
    matches,
    length: distance(vertices[origin[chain[0]!]!]!, vertices[origin[chain.at(-1)! ^ 1]!]!),
    refused: refusedCuts.size,
  };
}

/** Does a seam inside the unit end at the vertex half-edge `h` starts from? */
export function seamMeets(pattern: Pattern, unit: Region, h: number): boolean {
  const { face, next } = pattern.division;
  let k = h;
  do {
    const a = face[k]!;
    const b = face[k ^ 1]!;
    if (a >= 0 && b >= 0 && a !== b && unit[a] === 1 && unit[b] === 1) return true;
    k = next[k ^ 1]!;
  } while (k !== h);
  return false;
}
