/** What a project has chosen about cutting, and what has been cut. All keys are optional; lengths in inches. */
export interface CuttingChoices {
  /** Added beyond the seam allowance on every side. */
  readonly ease?: number;
  /** Sizes are rounded up to a whole number of these. */
  readonly step?: number;
  /** Usable width of fabrics that do not say their own. */
  readonly width?: number;
  readonly savings?: 'none' | 'squares' | 'all';
  /** Bought besides what is cut, a share of it. */
  readonly spare?: number;
  /** By how much cloth shrinks in the wash, a share. */
  readonly shrinkage?: number;
  /** Fat quarters, precuts and scraps are used up first. */
  readonly stockFirst?: boolean;
  /** Sizes chosen by hand. */
  readonly sizes?: readonly HandSize[];
  /** What is cut already, by `cutMark`. */
  readonly done?: readonly string[];
}

export interface HandSize {
  readonly block: string;
  /** As the plan calls it, or its lasting id. */
  readonly patch: string;
  readonly width: number;
  readonly height: number;
}

export const MOST_EASE_IN = 4;
export const LEAST_STEP_IN = 1 / 64;
export const MOST_STEP_IN = 2;
export const MOST_SHARE = 0.5;
export const SIZES_PER_PROJECT = 20_000;
export const MARKS_PER_PROJECT = 200_000;
export const MARK_LENGTH = 700;

/** How a piece that has been cut is remembered: a piece of another size would be another one. */
export const cutMark = (
  [block, patch, copy]: readonly [string, string, number],
  { width, height }: { readonly width: number; readonly height: number },
): string => `${block}/${patch}/${copy} ${Math.min(width, height)} ${Math.max(width, height)}`;
