import type { Quad } from '../geometry/homography.ts';
import type { Point, Ring } from '../geometry/point.ts';

/** `auto`: the plan decides; `join`: must part two foundations; `seam`: must stay inside one. */
export type CutRole = 'auto' | 'join' | 'seam';

/** A straight line drawn in a block. */
export interface Cut {
  readonly id: string;
  readonly from: Point;
  readonly to: Point;
  readonly role: CutRole;
  /** Neither moved nor taken away by hand until it is unlocked. Nothing to do with sewing. */
  readonly locked?: true;
}

/**
 * What a block remembers of one of its patches: the id it keeps through edits, unique in its block, and a point inside
 * it. Of several in one patch the last that lays a fabric stands for it, or else the last.
 */
export interface PatchEntry {
  readonly id: string;
  readonly at: Point;
  /** The fabric laid on it; bare when absent. */
  readonly fabric?: string;
}

/**
 * Which of the plans for a block is wanted:
 * - `fewest`: the fewest foundations.
 * - `rows`, `columns`: joins that run level, or upright, wherever there is such a one.
 * - `least-matching`: the fewest spots where a seam must be matched or met along a join.
 * - `unit-first`: a finished unit may serve as position 1 of a further paper.
 * - `partial-seams`: rings are sewn with a partial seam where they can be.
 */
export type PlanChoice = 'fewest' | 'rows' | 'columns' | 'least-matching' | 'unit-first' | 'partial-seams';

export const PLAN_CHOICES: readonly PlanChoice[] = [
  'fewest',
  'rows',
  'columns',
  'least-matching',
  'unit-first',
  'partial-seams',
];

/** A photo or scan laid under a drawing, to be traced. Nothing to do with sewing. */
export interface UnderPicture {
  /** The picture written out: `data:image/jpeg;base64,…`, or png or webp. */
  readonly data: string;
  /** Pixels. */
  readonly width: number;
  readonly height: number;
  /**
   * The places of the picture, pixels from its top left, that lie at the corners of the outline's box: top left, top
   * right, bottom right, bottom left.
   */
  readonly corners: Quad;
  /** How strongly it shows, 0 … 1. */
  readonly strength: number;
  readonly shown: boolean;
  /** Neither squared up anew nor taken away until it is unlocked. */
  readonly locked: boolean;
}

/**
 * What piecing needs to know of a block: a closed outline divided by straight cuts, front view, inches, y down.
 * The document's block is one of these with more around it.
 */
export interface Block {
  readonly id: string;
  readonly name: string;
  readonly outline: Ring;
  readonly cuts: readonly Cut[];
  /** One for every patch once the block has been edited; a patch without one is bare. */
  readonly patches: readonly PatchEntry[];
  /** The plan chosen by hand; `fewest` when absent. */
  readonly plan?: PlanChoice;
  /**
   * Orders set by hand: each a list of ids of patches, in the order those patches are to be sewn. Patches of the same
   * foundation that are not listed follow after. A list of one pins the first patch. An id that is that of no patch is
   * passed over.
   */
  readonly orders?: readonly (readonly string[])[];
  /** Piecing looks past it. */
  readonly picture?: UnderPicture;
}
