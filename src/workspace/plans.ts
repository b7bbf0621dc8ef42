import { lightnessOf } from '../document/lightness.ts';
import type { Fabric } from '../document/project.ts';
import type { Block } from '../piecing/block.ts';
import { piece } from '../piecing/piece.ts';
import type { PiecingPlan } from '../piecing/plan.ts';
import { session, shownProject } from './session.ts';

/** Plans hold for the colours they were made with: where the order is free, light fabrics are sewn before dark. */
let known: {
  readonly fabrics: readonly Fabric[];
  readonly colors: string;
  readonly plans: WeakMap<Block, PiecingPlan>;
} = {
  fabrics: [],
  colors: '',
  plans: new WeakMap(),
};

/**
 * The piecing plan of a block of the shown project, made once for each state of the block and forgotten with it.
 * It changes when the colour of a fabric does, so whoever remembers it must watch `fabrics` as well as the block.
 */
export function planOf(block: Block): PiecingPlan {
  const plans = plansFor(shownProject(session.getState()).fabrics);
  const made = plans.get(block);
  if (made !== undefined) return made;
  const plan = piece(block, { lightness: lightnessOf(known.fabrics) });
  plans.set(block, plan);
  return plan;
}

function plansFor(fabrics: readonly Fabric[]): WeakMap<Block, PiecingPlan> {
  if (fabrics === known.fabrics) return known.plans;
  const colors = fabrics.map(({ id, color }) => `${id} ${color}`).join('\n');
  known = { fabrics, colors, plans: colors === known.colors ? known.plans : new WeakMap() };
  return known.plans;
}
