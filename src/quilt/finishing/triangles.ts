import { EIGHTH_IN, roundUp } from './round-up.ts';

/**
 * Squares that setting triangles are cut from. Common practice: what the seams take is rounded up to 1/8 in, 1 1/4 in for
 * side triangles and 7/8 in for corners at 1/4 in seams, then the sum once more. With √2 itself, not 1.414: printed
 * tables that use 1.414 differ once, at blocks of 16 in.
 */

/** Side of the square cut twice across into four side triangles, their long sides `longSide` finished. */
export const quarterSquare = (longSide: number, seam: number): number =>
  roundUp(longSide + roundUp(2 * seam * (1 + Math.SQRT2), EIGHTH_IN), EIGHTH_IN);

/** Side of the square cut once across into two corner triangles, their short sides `leg` finished. */
export const halfSquare = (leg: number, seam: number): number =>
  roundUp(leg + roundUp(seam * (2 + Math.SQRT2), EIGHTH_IN), EIGHTH_IN);

/** The square for side triangles of blocks standing on point, by the block's finished side. */
export const sideSquare = (block: number, seam = 0.25): number => quarterSquare(block * Math.SQRT2, seam);

/** The square for corner triangles of blocks standing on point, by the block's finished side. */
export const cornerSquare = (block: number, seam = 0.25): number => halfSquare(block * Math.SQRT1_2, seam);
