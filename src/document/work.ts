import type { Point, Ring, Segment } from '../geometry/point.ts';

/**
 * What has been taken into work. It keeps the drawings and plans that its papers were made from, so that no later edit,
 * and no later version of the search, changes a paper that lies on someone's table. What is done is never taken back by
 * undoing a drawing.
 */
export interface Work {
  readonly blocks: readonly WorkBlock[];
  readonly rounds: readonly WorkRound[];
  /** How many positions of each paper are sewn, by its id `b1/A/2`; a paper not begun is left out. */
  readonly sewn: Readonly<Record<string, number>>;
  /** How many joining steps are done, by block and copy: `b1/2`. */
  readonly joined: Readonly<Record<string, number>>;
  /** Blocks and copies that are trimmed: `b1/2`. */
  readonly trimmed: readonly string[];
}

/** A block as it was when it was taken into work. */
export interface WorkBlock {
  readonly id: string;
  readonly name: string;
  readonly copies: number;
  readonly outline: Ring;
  readonly patches: readonly WorkPatch[];
  readonly sections: readonly WorkSection[];
  /** In the order they are sewn. */
  readonly joins: readonly WorkJoin[];
}

export interface WorkPatch {
  /** As printed: `A1`. */
  readonly id: string;
  readonly fabric?: string;
  readonly polygon: Ring;
}

export interface WorkSection {
  readonly letter: string;
  readonly stamp: string;
  readonly outline: Ring;
  /** Ids of its patches as they are sewn. */
  readonly order: readonly string[];
  /** Letters of the finished unit it starts from; absent where position 1 is a patch. */
  readonly startsFrom?: readonly string[];
}

export interface WorkJoin {
  readonly left: readonly string[];
  readonly right: readonly string[];
  readonly seam: Segment;
  readonly kind: string;
  readonly points: readonly { readonly label: string; readonly at: Point }[];
}

/** One fabric worked through every paper that takes it. */
export interface WorkRound {
  /** Absent for patches without a fabric. */
  readonly fabric?: string;
  readonly takes: readonly { readonly paper: string; readonly patches: readonly string[] }[];
}
