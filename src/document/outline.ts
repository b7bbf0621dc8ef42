import type { Point, Ring } from '../geometry/point.ts';
import { CORNERS_PER_OUTLINE, cleanPoint } from './limits.ts';

/** The shapes a block can begin as. Every length is in inches. */
export type OutlineShape =
  | { readonly kind: 'square'; readonly side: number }
  | { readonly kind: 'rectangle'; readonly width: number; readonly height: number }
  /** Equal sides, one of them level at the bottom. */
  | { readonly kind: 'triangle'; readonly side: number }
  /** Regular, a corner at left and right; `side` is also the distance from the middle to a corner. */
  | { readonly kind: 'hexagon'; readonly side: number }
  /** Regular, `width` across from side to opposite side. */
  | { readonly kind: 'octagon'; readonly width: number };

/**
 * The outline of a shape, its box starting at [0, 0], corners in turn so that the shoelace area is positive
 * (y down). Inches, not yet snapped: edits snap on the way in.
 */
export function outlineOf(shape: OutlineShape): Ring {
  switch (shape.kind) {
    case 'square':
      return rectangle(shape.side, shape.side);
    case 'rectangle':
      return rectangle(shape.width, shape.height);
    case 'triangle': {
      const height = (shape.side * Math.sqrt(3)) / 2;
      return [
        [shape.side / 2, 0],
        [shape.side, height],
        [0, height],
      ];
    }
    case 'hexagon': {
      const { side } = shape;
      const height = side * Math.sqrt(3);
      return [
        [side / 2, 0],
        [side * 1.5, 0],
        [side * 2, height / 2],
        [side * 1.5, height],
        [side / 2, height],
        [0, height / 2],
      ];
    }
    case 'octagon': {
      const { width } = shape;
      // Side of a regular octagon of unit width is sqrt(2) - 1; what is left of the width is halved by symmetry.
      const near = (width * (2 - Math.SQRT2)) / 2;
      const far = width - near;
      return [
        [near, 0],
        [far, 0],
        [width, near],
        [width, far],
        [far, width],
        [near, width],
        [0, far],
        [0, near],
      ];
    }
  }
}

const rectangle = (width: number, height: number): Ring => [
  [0, 0],
  [width, 0],
  [width, height],
  [0, height],
];

/** The outline snapped to the lattice, or null when it cannot be stored: fewer than three or too many points, or out of bounds. */
export function cleanOutline(outline: Ring): Ring | null {
  if (outline.length < 3 || outline.length > CORNERS_PER_OUTLINE) return null;
  const points = outline.map(cleanPoint);
  return points.every((point): point is Point => point !== null) ? points : null;
}
