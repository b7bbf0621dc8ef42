/** Rounded up to a step, such as 1/8 in; what is over by less than a thousandth of it is rounding, not length. */
export const roundUp = (inches: number, step: number): number => Math.ceil(inches / step - 1e-3) * step;

export const EIGHTH_IN = 1 / 8;
/** Cloth is sold by the quarter yard: lengths to buy are rounded up to it. */
export const QUARTER_YARD_IN = 9;
