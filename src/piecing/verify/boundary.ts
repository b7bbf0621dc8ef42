import type { Point, Ring, Segment } from '../../geometry/point.ts';
import { pointNumbers } from '../../geometry/point-numbers.ts';
import type { Patch } from '../plan.ts';

/**
 * All that the polygons of a plan's patches say of what lies beside what. Patches are numbered as they stand in the
 * plan, spots as they are met, and sides (the edges of polygons, as they run round) patch by patch.
 */
export interface Boundary {
  /** Number of each patch, by its id. */
  readonly numberOfPatch: ReadonlyMap<string, number>;
  /** The first side of each patch, and of one more beyond the last. */
  readonly firstSide: Int32Array;
  readonly edges: readonly Segment[];
  /** The patch each side belongs to, and the one that has the same edge the other way; -1 where none has. */
  readonly patch: Int32Array;
  readonly beyond: Int32Array;
  /** Spot where a side begins, and where it ends. */
  readonly from: Int32Array;
  readonly to: Int32Array;
  /** A number for each spot, the same for the same spot. */
  readonly numberOf: (at: Point) => number;
  /** The side that runs from a spot to another; -1 where there is none. */
  readonly sideFrom: (from: number, to: number) => number;
  /** Pairs of patches that both have one edge in one direction, and so lie on each other. */
  readonly doubled: readonly (readonly [number, number])[];
}

/**
 * Neighbours share vertices exactly, so the patch beyond an edge is the one that has the same edge the other way.
 * Cost: O(edges).
 */
export function boundaryOf(patches: readonly Patch[]): Boundary {
  const { numberOf, count } = pointNumbers();
  const firstSide = new Int32Array(patches.length + 1);
  let sides = 0;
  patches.forEach(({ polygon, holes }, p) => {
    sides += polygon.length;
    for (const hole of holes) sides += hole.length;
    firstSide[p + 1] = sides;
  });
  const edges: Segment[] = [];
  const patch = new Int32Array(sides);
  const from = new Int32Array(sides);
  const to = new Int32Array(sides);
  const walk = (ring: Ring, p: number): void => {
    const start = edges.length;
    for (let i = 0; i < ring.length; i++) {
      const next = i + 1 < ring.length ? i + 1 : 0;
      patch[start + i] = p;
      from[start + i] = numberOf(ring[i]!);
      edges.push([ring[i]!, ring[next]!]);
    }
    for (let i = 0; i < ring.length; i++) to[start + i] = from[start + (i + 1 < ring.length ? i + 1 : 0)]!;
  };
  patches.forEach(({ polygon, holes }, p) => {
    walk(polygon, p);
    for (const hole of holes) walk(hole, p);
  });
  // The sides that begin at a spot, one chained to the next.
  const firstAt = new Int32Array(count()).fill(-1);
  const nextAt = new Int32Array(sides).fill(-1);
  const sideFrom = (a: number, b: number): number => {
    let s = firstAt[a] ?? -1;
    while (s >= 0 && to[s] !== b) s = nextAt[s]!;
    return s;
  };
  const doubled: [number, number][] = [];
  for (let s = 0; s < sides; s++) {
    const known = sideFrom(from[s]!, to[s]!);
    if (known >= 0) doubled.push([patch[known]!, patch[s]!]);
    nextAt[s] = firstAt[from[s]!]!;
    firstAt[from[s]!] = s;
  }
  const beyond = new Int32Array(sides);
  for (let s = 0; s < sides; s++) {
    const twin = sideFrom(to[s]!, from[s]!);
    beyond[s] = twin < 0 ? -1 : patch[twin]!;
  }
  return {
    numberOfPatch: new Map(patches.map(({ id }, p) => [id, p])),
    firstSide,
    edges,
    patch,
    beyond,
    from,
    to,
    numberOf,
    sideFrom,
    doubled,
  };
}

/** The sides of a patch that lie on certain others, as they run round it. `isOther`: 1 for each of those others. */
export function addContact(
  { firstSide, beyond }: Boundary,
  patch: number,
  isOther: (patch: number) => boolean,
  contact: number[],
): void {
  for (let s = firstSide[patch]!; s < firstSide[patch + 1]!; s++) {
    const other = beyond[s]!;
    if (other >= 0 && other !== patch && isOther(other)) contact.push(s);
  }
}
