import { createStore } from 'zustand/vanilla';
import type { Block, PlanChoice } from '../piecing/block.ts';
import { PLAN_CHOICES } from '../piecing/block.ts';
import type { PieceOptions } from '../piecing/options.ts';
import type { PiecingPlan } from '../piecing/plan.ts';
import { drawingOf } from './drawing-of.ts';
import { makePlan } from './piecing-client.ts';

/** The plans there are to choose from for one drawing, as far as they have been made. */
export interface OtherPlans {
  /** The cuts of the drawing they are for; null before any were asked for. */
  readonly of: Block['cuts'] | null;
  readonly plans: ReadonlyMap<PlanChoice, PiecingPlan>;
  readonly isLooking: boolean;
}

export const otherPlans = createStore<OtherPlans>(() => ({ of: null, plans: new Map(), isLooking: false }));

interface Made {
  readonly parts: readonly unknown[];
  readonly plans: Map<PlanChoice, PiecingPlan>;
}

/** What was made for a drawing, remembered with its cuts: another plan chosen leaves those as they are. */
const made = new WeakMap<Block['cuts'], Made>();

function madeFor(block: Block, options: PieceOptions): Made {
  const parts = [block.outline, block.patches, block.orders, options];
  const known = made.get(block.cuts);
  if (known?.parts.every((part, k) => part === parts[k])) return known;
  const fresh: Made = { parts, plans: new Map() };
  made.set(block.cuts, fresh);
  return fresh;
}

/** How long a drawing must rest before its other plans are made, ms. */
const REST_MS = 250;

/** A plan may be put aside for a newer drawing so often before it is given up. */
const TRIES = 3;

/** Makes every plan of a block, one after another beside the main thread, into `otherPlans`. Returns a stop function. */
export function lookForOtherPlans(block: Block, options: PieceOptions): () => void {
  const { plans } = madeFor(block, options);
  let isWanted = true;
  const show = (): void => {
    if (isWanted)
      otherPlans.setState({
        of: block.cuts,
        plans: new Map(plans),
        isLooking: plans.size < PLAN_CHOICES.length,
      });
  };
  show();
  if (plans.size === PLAN_CHOICES.length) return () => undefined;
  const work = async (): Promise<void> => {
    for (const choice of PLAN_CHOICES) {
      for (let left = TRIES; isWanted && left > 0 && !plans.has(choice); left--) {
        try {
          plans.set(choice, (await makePlan({ block: { ...drawingOf(block), plan: choice }, options })).plan);
          show();
        } catch {
          // The worker was let go for the sake of a newer drawing; the next try finds another.
        }
      }
    }
    if (isWanted) otherPlans.setState({ isLooking: false });
  };
  const timer = setTimeout(() => void work(), REST_MS);
  return () => {
    isWanted = false;
    clearTimeout(timer);
  };
}
