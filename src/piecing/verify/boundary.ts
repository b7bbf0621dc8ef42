import type { Point, Segment } from '../../geometry/point.ts';
import { pointNumbers } from '../../geometry/point-numbers.ts';
import type { Patch } from '../plan.ts';

/** An edge of a patch's polygon, as it runs round the patch. */
export interface Side {
  readonly edge: Segment;
  readonly patch: string;
  /** Patch that has the same edge the other way; null where none has. */
  readonly other: string | null;
}

/** All that the polygons of a plan's patches say of what lies beside what. */
export interface Boundary {
  /** The sides of each patch, by its id. */
  readonly sidesOf: ReadonlyMap<string, readonly Side[]>;
  /** A number for each spot, the same for the same spot. */
  readonly numberOf: (at: Point) => number;
  /** A number for each way from a spot to another, both told by their numbers. */
  readonly wayOf: (from: number, to: number) => number;
  /** The patch that has an edge this way; null where none has. */
  readonly ownerOf: (way: number) => string | null;
  /** Pairs of patches that both have one edge in one direction, and so lie on each other. */
  readonly doubled: readonly (readonly [string, string])[];
}

/** More spots than a block can have. */
const MOST_SPOTS = 2 ** 24;

/**
 * Neighbours share vertices exactly, so the patch beyond an edge is the one that has the same edge the other way.
 * Cost: O(edges).
 */
export function boundaryOf(patches: readonly Patch[]): Boundary {
  const { numberOf } = pointNumbers();
  const wayOf = (from: number, to: number): number => from * MOST_SPOTS + to;
  const owners = new Map<number, string>();
  const doubled: [string, string][] = [];
  const rings = patches.map(({ id, polygon, holes }) =>
    [polygon, ...holes].map((ring) => {
      const spots = ring.map(numberOf);
      spots.forEach((from, i) => {
        const way = wayOf(from, spots[(i + 1) % spots.length]!);
        const known = owners.get(way);
        if (known !== undefined) doubled.push([known, id]);
        owners.set(way, id);
      });
      return { ring, spots };
    }),
  );
  const sidesOf = new Map(
    patches.map(({ id: patch }, k) => [
      patch,
      rings[k]!.flatMap(({ ring, spots }) =>
        ring.map((from, i): Side => {
          const next = (i + 1) % ring.length;
          return {
            edge: [from, ring[next]!],
            patch,
            other: owners.get(wayOf(spots[next]!, spots[i]!)) ?? null,
          };
        }),
      ),
    ]),
  );
  return { sidesOf, numberOf, wayOf, ownerOf: (way) => owners.get(way) ?? null, doubled };
}

/** The sides of some patches that lie on certain others, as they run round the first. */
export function contactBetween(
  { sidesOf }: Boundary,
  some: Iterable<string>,
  isOther: (patch: string) => boolean,
): Side[] {
  const contact: Side[] = [];
  for (const id of some)
    for (const side of sidesOf.get(id) ?? [])
      if (side.other !== null && side.other !== id && isOther(side.other)) contact.push(side);
  return contact;
}
