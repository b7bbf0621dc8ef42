import { useStore } from 'zustand';
import type { Block } from '../piecing/block.ts';
import type { PiecingPlan } from '../piecing/plan.ts';
import { planAtHand, plansCome, requestPlan, type ShownPlan } from '../workspace/plans.ts';
import { session, shownProject } from '../workspace/session.ts';

/**
 * The plan to show of a block, now and whenever a newer one comes; null while there has been none yet. Small blocks
 * have theirs at once, of large ones the last plan stays until the worker has the next.
 */
export function usePlan(block: Block): ShownPlan {
  useNews(block);
  return requestPlan(block);
}

/** Draws whoever shows a plan of the block again when a newer one has come. */
function useNews(block: Block): void {
  useStore(plansCome, ({ of }) => of.get(block.id));
  // A plan changes with these as well.
  useStore(session, (state) => shownProject(state).fabrics);
  useStore(session, (state) => shownProject(state).severities);
  useStore(session, (state) => shownProject(state).seamAllowance);
  useStore(session, (state) => shownProject(state).unit);
}

/**
 * The plan to show of a recorded block beside the drawing, where it need not follow the pointer: asks for nothing, since
 * every recorded block is planned in its turn, and is told when one has come. Null while there has been none.
 */
export function useRestingPlan(block: Block): PiecingPlan | null {
  useNews(block);
  return planAtHand(block);
}

/**
 * The plan of a block as far as it is there, for whatever shows the recorded state of the open block while a gesture
 * runs on it: asks for nothing, and is told of what others have asked for. Null while there has been none, or no block.
 */
export function usePlanAtHand(block: Block | null): PiecingPlan | null {
  useStore(plansCome, ({ of }) => of.get(block?.id ?? ''));
  return block === null ? null : planAtHand(block);
}
