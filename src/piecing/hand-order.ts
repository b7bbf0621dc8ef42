import type { Segment } from '../geometry/point.ts';
import type { Patch, PiecingPlan, Section } from './plan.ts';
import { edgesOf, isOneStretch, neighbourFinder } from './verify.ts';

/** Why an order by hand cannot be sewn: the first patch that does not go on, and what is in its way. */
export interface OrderFault {
  readonly patch: string;
  /** Earlier patches it touches. */
  readonly touches: readonly string[];
  /** The stretches it shares with them: none, or more than one line, or a broken one. */
  readonly stretches: readonly Segment[];
  readonly message: string;
}

/**
 * Can the patches of a section be sewn in this order? By the rule itself: each new patch meets the earlier ones along
 * one straight unbroken stretch. Result: null when it can, else the first fault.
 */
export function orderFault(plan: PiecingPlan, section: Section, order: readonly string[]): OrderFault | null {
  const byId = new Map(plan.patches.map((patch) => [patch.id, patch]));
  const neighbour = neighbourFinder(plan.patches);
  const earlier = new Set(
    plan.patches.filter((patch) => section.startsFrom.includes(patch.section)).map((patch) => patch.id),
  );
  for (const id of order) {
    const patch = byId.get(id);
    if (!patch) continue;
    const fault = earlier.size > 0 ? faultAt(patch, earlier, neighbour) : null;
    if (fault) return fault;
    earlier.add(id);
  }
  return null;
}

function faultAt(
  patch: Patch,
  earlier: ReadonlySet<string>,
  neighbour: ReturnType<typeof neighbourFinder>,
): OrderFault | null {
  const shared = edgesOf(patch).filter((edge) => earlier.has(neighbour(patch.id, edge) ?? ''));
  if (isOneStretch(shared)) return null;
  const touches = [...new Set(shared.map((edge) => neighbour(patch.id, edge)!))].sort();
  const message =
    touches.length === 0
      ? `${patch.id} would touch nothing sewn before it.`
      : `${patch.id} would meet ${touches.join(' and ')} along more than one line.`;
  return { patch: patch.id, touches, stretches: shared, message };
}

/**
 * The places (counted from 0) each patch of a section may be moved to, the others keeping their order among
 * themselves; its own place included. Cost: O(patches³) on sections of a few dozen at most.
 */
export function freeMoves(plan: PiecingPlan, section: Section): Map<string, readonly number[]> {
  return new Map(
    section.order.map((id, from) => {
      const places = section.order.map((_, to) => to);
      const free = places.filter(
        (to) => to === from || orderFault(plan, section, moved(section.order, from, to)) === null,
      );
      return [id, free];
    }),
  );
}

/** The order with the item at one place taken to another. */
export function moved<T>(order: readonly T[], from: number, to: number): T[] {
  const next = [...order];
  next.splice(to, 0, ...next.splice(from, 1));
  return next;
}
