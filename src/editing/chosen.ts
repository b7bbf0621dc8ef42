import type { Point } from '../geometry/point.ts';

/** What is chosen besides cuts: at most one thing. */
export type Chosen =
  /** A side of the outline, from the corner of this number. */
  | { readonly kind: 'edge'; readonly edge: number }
  | { readonly kind: 'corner'; readonly corner: number }
  /** The patch that holds this spot. Patch ids change with the plan, spots do not. */
  | { readonly kind: 'patch'; readonly at: Point };
