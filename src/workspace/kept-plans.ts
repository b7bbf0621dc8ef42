import type { Block } from '../piecing/block.ts';
import { type PieceOptions, planKey } from '../piecing/options.ts';
import type { PiecingPlan } from '../piecing/plan.ts';
import { drawingOf } from './drawing-of.ts';
import { pieceOptions } from './present-options.ts';
import { session } from './session.ts';

interface KeptPlan {
  readonly plan: PiecingPlan;
  readonly key: string;
  /** Options it is known to hold for. */
  options: PieceOptions;
}

const plans = new WeakMap<Block, KeptPlan>();

/** So many states of one block keep their plans; one that undo brings back from further is pieced again. */
const MOST_STATES = 8;

const statesOf = new Map<string, readonly Block[]>();

/**
 * Keeps the plan of a state of a block, and lets go of the one that was made longest ago; never of the recorded
 * state's, which what stands still during a gesture goes on showing.
 */
export function keepPlan(block: Block, options: PieceOptions, plan: PiecingPlan): void {
  plans.set(block, { plan, key: planKey(block, options), options });
  const open = session.getState().project.blocks.find(({ id }) => id === block.id);
  const recorded = open === undefined ? null : drawingOf(open);
  const states = [...(statesOf.get(block.id) ?? []).filter((state) => state !== block), block];
  const others = states.filter((state) => state !== recorded);
  const gone = new Set(others.slice(0, -MOST_STATES));
  for (const state of gone) plans.delete(state);
  statesOf.set(
    block.id,
    states.filter((state) => !gone.has(state)),
  );
}

/**
 * The plan of this very drawing where it has been made for the options there are now, or for others that come to the
 * same for this block, such as another colour of a fabric that it has not.
 */
export function keptPlan(block: Block): PiecingPlan | undefined {
  const kept = plans.get(block);
  const options = pieceOptions();
  if (kept === undefined || kept.options === options) return kept?.plan;
  if (kept.key !== planKey(block, options)) return undefined;
  kept.options = options;
  return kept.plan;
}
