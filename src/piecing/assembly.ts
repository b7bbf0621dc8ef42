import type { Chord, Parting } from './partings.ts';
import type { Region } from './region.ts';

/** How a region is put together: one foundation, two units and the join between them, or a unit sewn on from. */
export type Assembly =
  | { readonly kind: 'foundation'; readonly region: Region }
  | {
      readonly kind: 'straight' | 'set-in' | 'partial';
      readonly region: Region;
      readonly left: Assembly;
      readonly right: Assembly;
    }
  /** `base` is finished first and serves as position 1 of the paper that adds the rest of the region. */
  | { readonly kind: 'sewn-on'; readonly region: Region; readonly base: Assembly };

/**
 * What an assembly costs, most weighty first: corners that set-in joins turn, pinned roles not obeyed, what the plan wished for
 * dislikes, foundations, match points, length of all joins in 1/64 in (whole, so that rounding never decides).
 */
export type Cost = readonly [
  corners: number,
  refused: number,
  disliked: number,
  foundations: number,
  matches: number,
  length: number,
];

/** Corners that the set-in joins of an assembly turn, pinned roles that it does not obey, and its foundations. */
export const costInWords = ([corners, refused, , foundations]: Cost) => ({ corners, refused, foundations });

/** What is wished for besides the fewest foundations. */
export interface Wish {
  /** What a join along this chord costs in dislike: a whole number, 0 for none. */
  readonly dislike?: (chord: Chord, parting: Parting) => number;
  /** May a finished unit serve as position 1 of a further paper? */
  readonly allowsUnitFirst?: boolean;
  /** Rings, by `keyOf`, that are opened so and sewn with a partial seam. */
  readonly opened?: ReadonlyMap<string, { readonly left: Region; readonly right: Region }>;
}

/** What a search found for a region. */
export interface Solved {
  readonly cost: Cost;
  readonly assembly: Assembly;
}
