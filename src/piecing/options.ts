import type { PlanChoice } from './block.ts';
import type { Severity } from './plan.ts';

/** Severity by code of a rule. */
export type Severities = Readonly<Record<string, Severity | 'off'>>;

export interface PieceOptions {
  /** How much searching is allowed, in regions looked into. Default `DEFAULT_BUDGET`. */
  readonly budget?: number;
  /** How light each fabric is, 0 … 1, by fabric id: light is sewn before dark where the order is free. */
  readonly lightness?: (fabric: string) => number;
  /** Overrides the plan chosen with the block. */
  readonly plan?: PlanChoice;
  /** Paper that a foundation with its allowance should fit on, inches, either way up. Not looked at when absent. */
  readonly paper?: { readonly width: number; readonly height: number; readonly allowance: number };
  /** Severity of findings by code, where it differs from the rule's own; `off` leaves them out. */
  readonly severities?: Severities;
}

export const DEFAULT_BUDGET = 2_000;
