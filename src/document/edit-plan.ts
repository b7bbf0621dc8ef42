import type { Point } from '../geometry/point.ts';
import type { PlanChoice } from '../piecing/block.ts';
import type { Severity } from '../piecing/plan.ts';
import { applyChange, type Change } from '../piecing/repairs/repair.ts';
import { carryPaint } from './carry-paint.ts';
import { changeBlock } from './find.ts';
import { cleanPoint } from './limits.ts';
import type { Block, Project } from './project.ts';

/** Chooses which of the plans for a block is wanted. */
export function setPlan(project: Project, blockId: string, plan: PlanChoice): Project {
  return changeBlock(project, blockId, (block) => {
    if ((block.plan ?? 'fewest') === plan) return block;
    const { plan: _, ...rest } = block;
    return plan === 'fewest' ? rest : { ...rest, plan };
  });
}

/**
 * Sets an order by hand: one point in each patch, the first to be sewn first. Orders that share a spot with it (the
 * same section before) give way to it; an empty order only takes those away, given by `instead`.
 */
export function setOrder(
  project: Project,
  blockId: string,
  order: readonly Point[],
  instead: readonly Point[] = order,
): Project {
  return changeBlock(project, blockId, (block) => {
    const spots = new Set(instead.map(String));
    const others = (block.orders ?? []).filter((other) => !other.some((at) => spots.has(String(at))));
    const clean = order.map(cleanPoint).filter((at): at is Point => at !== null);
    return withOrders(block, clean.length === 0 ? others : [...others, clean]);
  });
}

function withOrders(block: Block, orders: readonly (readonly Point[])[]): Block {
  if (orders.length === 0 && block.orders === undefined) return block;
  const { orders: _, ...rest } = block;
  return orders.length === 0 ? rest : { ...rest, orders };
}

/** Takes a finding graver or lighter than its rule does, throughout the project; null goes back to the rule's own. */
export function setSeverity(project: Project, code: string, severity: Severity | 'off' | null): Project {
  const { [code]: before, ...others } = project.severities ?? {};
  if ((before ?? null) === severity) return project;
  const severities = severity === null ? others : { ...others, [code]: severity };
  const { severities: _, ...rest } = project;
  return Object.keys(severities).length === 0 ? rest : { ...rest, severities };
}

/** Does what a repair found for a block says, fabrics carried over. */
export function applyRepair(project: Project, blockId: string, change: Change): Project {
  return changeBlock(project, blockId, (block) => carryPaint(block, applyChange(block, change)));
}
