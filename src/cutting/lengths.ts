import { MM_PER_IN } from '../geometry/lattice.ts';
import type { LengthUnit } from '../geometry/length.ts';

export const IN_PER_YARD = 36;
const IN_PER_METRE = 1_000 / MM_PER_IN;

/** What is bought more of than is cut. */
export interface Slack {
  /** By how much the cloth is expected to shrink in the wash, a share of it: 0.05. */
  readonly shrinkage: number;
  /** Bought besides, to straighten the ends and for mistakes: a share of what is cut. */
  readonly spare: number;
}

export const NO_SLACK: Slack = { shrinkage: 0, spare: 0 };

/** Shops cut by the eighth of a yard, or the tenth of a metre. */
const STEP: Readonly<Record<LengthUnit, { readonly steps: number; readonly inches: number }>> = {
  in: { steps: 8, inches: IN_PER_YARD },
  mm: { steps: 10, inches: IN_PER_METRE },
};

export interface ToBuy {
  /** Inches of length with spare and shrinkage, before it is rounded. */
  readonly inches: number;
  /** Whole eighths of a yard, as yards. */
  readonly yards: number;
  /** Whole tenths of a metre, as metres. */
  readonly metres: number;
}

/**
 * The length to buy for a length to cut, inches. What shrinks by a share has to be that much longer before it is
 * washed: divided by what is left of it.
 */
export function toBuy(length: number, { shrinkage, spare }: Slack): ToBuy {
  const inches = (length * (1 + spare)) / (1 - shrinkage);
  return { inches, yards: inShopSteps(inches, 'in'), metres: inShopSteps(inches, 'mm') };
}

/** Yards (`in`) or metres (`mm`), rounded up to what a shop cuts. */
function inShopSteps(inches: number, unit: LengthUnit): number {
  const { steps, inches: whole } = STEP[unit];
  return Math.max(0, Math.ceil((inches * steps) / whole - 1e-9)) / steps;
}

/** How much cloth a length bought is, inches. */
export const inchesOf = (bought: number, unit: LengthUnit): number => bought * STEP[unit].inches;
