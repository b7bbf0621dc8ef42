import { MM_PER_IN } from '../geometry/lattice.ts';
import type { LengthUnit } from '../geometry/length.ts';
import { phrase } from '../words/phrase.ts';

/**
 * How the straight grain of a fabric lies in its pieces.
 * - `seam`: along the seam a piece is sewn by, which takes least cloth.
 * - `block`: along the edges of the block, lengthwise or crosswise.
 * - `directional`: the print stands upright in the block; pieces are never turned.
 */
export type Grain = 'seam' | 'block' | 'directional';

/** Cuts that may be used beside plain rectangles. */
export type Savings = 'none' | 'squares' | 'all';

/** What every piece of a project is cut by. Lengths in inches. */
export interface CuttingRules {
  /** Seam allowance. */
  readonly allowance: number;
  /** Added beyond the allowance on every side. */
  readonly ease: number;
  /** Sizes are rounded up to a whole number of these. */
  readonly step: number;
  /** Across the fabric between its selvages, unless a fabric has a width of its own. */
  readonly usableWidth: number;
  readonly savings: Savings;
}

/** Ease on every side, by the courage of who sews: common practice, on top of a quarter inch of allowance. */
export const EASES: readonly { readonly key: string; readonly name: string; readonly inches: number }[] = [
  { key: 'bold', name: phrase('Bold'), inches: 1 / 8 },
  { key: 'usual', name: phrase('Usual'), inches: 1 / 4 },
  { key: 'beginner', name: phrase('Beginner'), inches: 1 / 2 },
];

export const USUAL_EASE_IN = 1 / 4;

/** Of cloth 42 to 44 in wide, without its selvages: common practice. */
export const USUAL_WIDTH_IN = 40;

/** Sizes are rounded up to this: a quarter inch, or 5 mm. */
export const usualStep = (unit: LengthUnit): number => (unit === 'mm' ? 5 / MM_PER_IN : 1 / 4);

/** Slack on rounding, in steps: what is whole but for the noise of numbers is not rounded up further. */
const NOISE = 1e-9;

/** The next whole number of steps, never less than one. */
export const roundedUp = (inches: number, step: number): number =>
  Math.max(1, Math.ceil(inches / step - NOISE)) * step;
