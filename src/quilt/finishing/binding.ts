import { QUARTER_YARD_IN, roundUp } from './round-up.ts';

export interface BindingNeed {
  /** Round the quilt, with what joins and corners take. */
  readonly length: number;
  readonly strips: number;
  /** Width of each strip as cut. */
  readonly width: number;
  /** Cloth to buy, inches of length, rounded up to 1/4 yd. */
  readonly buy: number;
  /** Of a bias binding, the side of the square it is cut from; null of a straight one. */
  readonly square: number | null;
}

/** Added for joins, the four corners and the overlap at the end: 10 to 20 in are usual. */
export const BINDING_EXTRA_IN = 20;

/** Strips cut at this width are usual; 2 1/4 in is common too. */
export const BINDING_WIDTH_IN = 2.5;

/**
 * What binds an edge of a length. Straight: strips across the usable width. Bias: one square whose area is that of the
 * strip, cut slantwise in rounds (common practice: the root of length times width, up to the next inch), or strips from it.
 */
export function bindingNeed(
  edge: number,
  width: number,
  isBias: boolean,
  usableWidth: number,
  extra = BINDING_EXTRA_IN,
): BindingNeed {
  const length = edge + extra;
  if (isBias) {
    const square = Math.ceil(Math.sqrt(length * width) - 1e-9);
    // A slanting strip from side to side of the square is √2 as long as the side.
    const strips = Math.ceil(length / (square * Math.SQRT2));
    // A square wider than the cloth is cut as a rectangle of the same area.
    const buy = square <= usableWidth ? square : (square * square) / usableWidth;
    return { length, strips, width, square, buy: roundUp(buy, QUARTER_YARD_IN) };
  }
  const strips = Math.ceil(length / usableWidth - 1e-9);
  return { length, strips, width, square: null, buy: roundUp(strips * width, QUARTER_YARD_IN) };
}
