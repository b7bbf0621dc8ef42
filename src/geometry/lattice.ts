import type { Point } from './point.ts';

/**
 * The lattice every coordinate lies on, and the only two tolerances of the project.
 *
 * Steps of 2^-16 in: 1/64 in is exact, a metric length moves by less than 0.0002 mm, and for points
 * within 1,000 in of each other the sign of a cross product is exact in a double (each factor fits 26 bits).
 */
export const LATTICE_STEPS_PER_IN = 65536;

/** Largest coordinate accepted anywhere, in inches. Beyond it orientation would no longer be exact. */
export const MAX_COORDINATE_IN = 1000;

export const MM_PER_IN = 25.4;

/** "This end touches that line": 0.05 mm, in inches. Used wherever that is asked: the division of a region, moving neighbours along with a line, trying repairs. */
export const TOUCH_IN = 0.05 / MM_PER_IN;

/**
 * Two cuts count as one straight line when they stay within this over their common length: 0.1 mm (about the
 * width of a printed line), in inches. Used where lines are told apart (`straight.ts`) and in the plan's own check.
 */
export const STRAIGHT_IN = 0.1 / MM_PER_IN;

/** Nearest lattice value of a length in inches. */
export const snap = (inches: number): number =>
  Math.round(inches * LATTICE_STEPS_PER_IN) / LATTICE_STEPS_PER_IN;

export const snapPoint = ([x, y]: Point): Point => [snap(x), snap(y)];
