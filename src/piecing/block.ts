import type { Point, Ring } from '../geometry/point.ts';

/** `auto`: the plan decides; `join`: must part two foundations; `seam`: must stay inside one. */
export type CutRole = 'auto' | 'join' | 'seam';

/** A straight line drawn in a block. */
export interface Cut {
  readonly id: string;
  readonly from: Point;
  readonly to: Point;
  readonly role: CutRole;
}

/** A fabric laid on the patch that holds the point `at`. */
export interface Paint {
  readonly at: Point;
  readonly fabric: string;
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
  readonly paint: readonly Paint[];
}
