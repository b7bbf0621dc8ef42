import { isOneStretch } from '../geometry/one-stretch.ts';
import type { Segment } from '../geometry/point.ts';
import { phrase } from '../words/phrase.ts';
import { type Contact, contactsOf } from './edges.ts';
import { compareIds } from './ids.ts';
import type { PiecingPlan, Section } from './plan.ts';
import { listed } from './rules/rule.ts';

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
  return faultIn(plan, section, order, contactsOf(plan.edges));
}

function faultIn(
  plan: PiecingPlan,
  section: Section,
  order: readonly string[],
  contacts: ReadonlyMap<string, readonly Contact[]>,
): OrderFault | null {
  const earlier = new Set(
    plan.patches.filter((patch) => section.startsFrom.includes(patch.section)).map((patch) => patch.id),
  );
  for (const id of order) {
    if (earlier.size > 0) {
      const contact = (contacts.get(id) ?? []).filter(({ other }) => earlier.has(other));
      const stretches = contact.map(({ edge }) => edge);
      if (!isOneStretch(stretches)) {
        const touches = [...new Set(contact.map(({ other }) => other))].sort(compareIds);
        const message =
          touches.length === 0
            ? phrase('{id} would touch nothing sewn before it.', { id })
            : phrase('{id} would meet {touches} along more than one line.', { id, touches: listed(touches) });
        return { patch: id, touches, stretches, message };
      }
    }
    earlier.add(id);
  }
  return null;
}

/**
 * The places (counted from 0) each patch of a section may be moved to, the others keeping their order among
 * themselves; its own place included. Cost: O(patches³) on sections of a few dozen at most.
 */
export function freeMoves(plan: PiecingPlan, section: Section): Map<string, readonly number[]> {
  const contacts = contactsOf(plan.edges);
  return new Map(
    section.order.map((id, from) => {
      const places = section.order.map((_, to) => to);
      const free = places.filter(
        (to) => to === from || faultIn(plan, section, moved(section.order, from, to), contacts) === null,
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
