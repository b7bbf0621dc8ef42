import type { Point, Ring, Segment } from '../geometry/point.ts';

/**
 * What is cut for a patch.
 * - `rectangle`: a piece of its own.
 * - `half-square`: a square cut once from corner to corner gives two.
 * - `quarter-square`: a square cut twice from corner to corner gives four.
 * - `half-rectangle`: a rectangle cut once aslant through its middle gives two, each turned against the other.
 */
export type CutKind = 'rectangle' | 'half-square' | 'quarter-square' | 'half-rectangle';

export const PIECES_FROM: Readonly<Record<CutKind, number>> = {
  rectangle: 1,
  'half-square': 2,
  'quarter-square': 4,
  'half-rectangle': 2,
};

export interface Cut {
  readonly kind: CutKind;
  /** Inches. Along the seam or level in the block, and across or upright; of a directional print always the latter. */
  readonly width: number;
  readonly height: number;
  /** Of a half rectangle, right side up: where the slanting cut runs from along its upper edge, and to along its lower. */
  readonly slant?: readonly [upper: number, lower: number];
}

/** The cloth for one patch. Inches, the block's own frame, front view. */
export interface Piece {
  readonly cut: Cut;
  /** Where it lies once it is sewn and pressed open; convex, positive shoelace area. */
  readonly shape: Ring;
  /** Where it lies right sides together, before it is swung over its seam. Null at position 1, which is not swung. */
  readonly laid: Ring | null;
}

/** Cloth per piece, square inches. */
export const clothOf = ({ kind, width, height }: Cut): number => (width * height) / PIECES_FROM[kind];

/** Two pieces with one key come from one cut, where it yields several. */
export const cutKey = ({ kind, width, height, slant }: Cut): string =>
  [kind, width, height, ...(slant ?? [])].join(' ');

/** A point mirrored in the line through a seam: where cloth was before it was swung over, or comes to lie after. */
export function swungOver([x, y]: Point, [[ax, ay], [bx, by]]: Segment): Point {
  const [dx, dy] = [bx - ax, by - ay];
  const t = (2 * ((x - ax) * dx + (y - ay) * dy)) / (dx * dx + dy * dy);
  return [2 * ax + t * dx - x, 2 * ay + t * dy - y];
}
