import type { Block, Cut, PlanChoice } from '../block.ts';
import type { Standing } from './standing.ts';

/** A change to a block that has been tried and makes its plan better. */
export interface Repair {
  /** Stable within one drawing: what is done to what. */
  readonly id: string;
  /** What is done, as one would say it: `Draw cut 3 on to cut 5.` */
  readonly sentence: string;
  readonly change: Change;
  /** Inches by which drawn lines move or grow. */
  readonly moved: number;
  readonly before: Standing;
  readonly after: Standing;
  /** It draws loose ends on to what they miss: what it adds is what was meant. */
  readonly isOwn?: true;
}

/** New cuts in place of the old ones, or another plan for the same cuts. */
export type Change =
  | { readonly kind: 'cuts'; readonly cuts: readonly Cut[] }
  | { readonly kind: 'plan'; readonly plan: PlanChoice };

/** A change worth trying, before it is tried. */
export interface Candidate {
  readonly id: string;
  readonly sentence: string;
  readonly change: Change;
  /** Lower is tried earlier. */
  readonly rank: number;
  /** Lines it takes away that part different fabrics: a loss to the picture. */
  readonly loss: number;
  /** Inches by which drawn lines move or grow. */
  readonly moved: number;
  /** It draws a loose end on to the line it misses: what it adds is what was meant. */
  readonly isOwn?: true;
}

export function applyChange(block: Block, change: Change): Block {
  return change.kind === 'cuts' ? { ...block, cuts: change.cuts } : { ...block, plan: change.plan };
}
