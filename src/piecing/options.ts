import type { LengthUnit } from '../geometry/length.ts';
import type { Block, PlanChoice } from './block.ts';
import type { Severity } from './plan.ts';

/** Severity by code of a rule. */
export type Severities = Readonly<Record<string, Severity | 'off'>>;

/** A sheet without its margins, inches, that may be laid upright or lying. */
export interface Paper {
  readonly width: number;
  readonly height: number;
  /** Seam allowance round each foundation. */
  readonly allowance: number;
  /** Room along the bottom that is not for foundations, whichever way the sheet lies. None unless told. */
  readonly foot?: number;
}

/** How light each fabric is, 0 (black) … 1 (white), by fabric id; what is not in it counts as white. */
export type Lightness = ReadonlyMap<string, number>;

/** What a plan hangs on beside its block: plain data, so that it can be handed to a worker and compared. */
export interface PieceOptions {
  /** How much searching is allowed, in regions looked into. Default `DEFAULT_BUDGET`. */
  readonly budget?: number;
  /** Light is sewn before dark where the order is free. */
  readonly lightness?: Lightness;
  /** Pairs of fabrics that can hardly be told apart, by their ids. */
  readonly alike?: readonly (readonly [one: string, other: string])[];
  /** Overrides the plan chosen with the block. */
  readonly plan?: PlanChoice;
  /** Paper that a foundation with its allowance should fit on. Not looked at when absent. */
  readonly paper?: Paper;
  /** What lengths are told in. Inches unless told. */
  readonly unit?: LengthUnit;
  /** Severity of findings by code, where it differs from the rule's own; `off` leaves them out. */
  readonly severities?: Severities;
}

/** A text that is the same for options under which every plan is the same. */
export const optionsKey = ({ lightness, ...rest }: PieceOptions): string =>
  JSON.stringify([lightness && [...lightness], rest]);

/** The same for one block: other fabrics than its own say nothing. */
export const planKey = (
  block: Pick<Block, 'patches'>,
  { lightness, alike, ...rest }: PieceOptions,
): string => {
  const own = new Set(block.patches.flatMap(({ fabric }) => fabric ?? []));
  const ownAlike = (alike ?? []).filter(([one, other]) => own.has(one) && own.has(other));
  return JSON.stringify([lightness && [...own].map((fabric) => lightness.get(fabric)), ownAlike, rest]);
};

export const DEFAULT_BUDGET = 2_000;
