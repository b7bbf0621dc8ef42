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
  /** The patch that has this very edge in this direction. */
  readonly ownerOf: (from: Point, to: Point) => string | null;
  /** A number for each spot, the same for the same spot. */
  readonly numberOf: (at: Point) => number;
  /** Pairs of patches that both have one edge in one direction, and so lie on each other. */
  readonly doubled: readonly (readonly [string, string])[];
}

/**
 * Neighbours share vertices exactly, so the patch beyond an edge is the one that has the same edge the other way.
 * Cost: O(edges).
 */
export function boundaryOf(patches: readonly Patch[]): Boundary {
  const { numberOf } = pointNumbers();
  const owners = new Map<number, Map<number, string>>();
  const doubled: [string, string][] = [];
  const ownerOf = (from: Point, to: Point): string | null =>
    owners.get(numberOf(from))?.get(numberOf(to)) ?? null;
  const edges = patches.map(({ id, polygon, holes }) =>
    [polygon, ...holes].flatMap((ring) =>
      ring.map((from, i): Segment => {
        const to = ring[(i + 1) % ring.length]!;
        const a = numberOf(from);
        const ends = owners.get(a) ?? new Map<number, string>();
        const known = ends.get(numberOf(to));
        if (known !== undefined) doubled.push([known, id]);
        owners.set(a, ends.set(numberOf(to), id));
        return [from, to];
      }),
    ),
  );
  const sidesOf = new Map(
    patches.map(({ id }, k) => [
      id,
      edges[k]!.map((edge): Side => ({ edge, patch: id, other: ownerOf(edge[1], edge[0]) })),
    ]),
  );
  return { sidesOf, ownerOf, numberOf, doubled };
}

/** The sides of some patches that lie on others, as they run round the first. */
export function contactBetween(
  { sidesOf }: Boundary,
  some: Iterable<string>,
  others: ReadonlySet<string>,
): Side[] {
  const contact: Side[] = [];
  for (const id of some)
    for (const side of sidesOf.get(id) ?? [])
      if (side.other !== null && side.other !== id && others.has(side.other)) contact.push(side);
  return contact;
}
