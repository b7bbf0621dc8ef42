import type { PlanChoice } from '../piecing/block.ts';
import type { Severity } from '../piecing/plan.ts';
import { applyChange, type Change } from '../piecing/repairs/repair.ts';
import { carryPatches, completed, withOrders, without } from './carry-patches.ts';
import { changeBlock } from './find.ts';
import type { Project } from './project.ts';

/** Chooses which of the plans for a block is wanted. */
export function setPlan(project: Project, blockId: string, plan: PlanChoice): Project {
  return changeBlock(project, blockId, (block) => {
    if ((block.plan ?? 'fewest') === plan) return block;
    const { plan: _, ...rest } = block;
    return plan === 'fewest' ? rest : { ...rest, plan };
  });
}

/**
 * Sets an order by hand: ids of patches, the first to be sewn first. What orders before it say of its patches, or of
 * those given as `instead` (all of a section), gives way to it; an empty order only takes that away. Ids that are those
 * of no patch are passed over.
 */
export function setOrder(
  project: Project,
  blockId: string,
  order: readonly string[],
  instead: readonly string[] = order,
): Project {
  return changeBlock(project, blockId, (block) => {
    const whole = completed(block);
    const known = new Set(whole.patches.map(({ id }) => id));
    const gone = new Set([...instead, ...order]);
    const others = (whole.orders ?? []).map((other) => without(other, gone));
    return withOrders(whole, [...others, [...new Set(order)].filter((id) => known.has(id))]);
  });
}

/** Takes a finding graver or lighter than its rule does, throughout the project; null goes back to the rule's own. */
export function setSeverity(project: Project, code: string, severity: Severity | 'off' | null): Project {
  const { [code]: before, ...others } = project.severities ?? {};
  if ((before ?? null) === severity) return project;
  const severities = severity === null ? others : { ...others, [code]: severity };
  const { severities: _, ...rest } = project;
  return Object.keys(severities).length === 0 ? rest : { ...rest, severities };
}

/** Does what a repair found for a block says, patches carried over. */
export function applyRepair(project: Project, blockId: string, change: Change): Project {
  return changeBlock(project, blockId, (block) => carryPatches(block, applyChange(block, change)));
}
