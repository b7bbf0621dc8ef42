import { isOneStretch } from '../geometry/one-stretch.ts';
import { contactsOf } from './edges.ts';
import type { PiecingPlan, Section } from './plan.ts';

/**
 * An order of a section that begins with a given patch and otherwise keeps as near to the present one as can be sewn;
 * null when the patch cannot be first. Where a finished unit is position 1, "first" means first after it.
 * It is found backwards, as any order is: of the other patches that can come off, the one sewn last now comes off.
 * Taking one off never spoils another, so when this sticks, no order begins with that patch. Cost: O(patches²).
 */
export function firstOrder(plan: PiecingPlan, section: Section, first: string): string[] | null {
  const contacts = contactsOf(plan.edges);
  const left = new Set(section.order);
  const base = new Set(
    plan.patches.filter((patch) => section.startsFrom.includes(patch.section)).map((patch) => patch.id),
  );
  const comesOff = (id: string): boolean =>
    isOneStretch(
      (contacts.get(id) ?? [])
        .filter(({ other }) => left.has(other) || base.has(other))
        .map(({ edge }) => edge),
    );
  const order: string[] = [];
  while (left.size > 1) {
    const last = [...left].findLast((id) => id !== first && comesOff(id));
    if (last === undefined) return null;
    left.delete(last);
    order.unshift(last);
  }
  if (!left.has(first) || (base.size > 0 && !comesOff(first))) return null;
  return [first, ...order];
}
