import type { Lightness } from './options.ts';
import type { PiecingPlan, Section } from './plan.ts';
import { darkUnder } from './rules/fabrics.ts';

/** What an order of a section asks at the machine, in numbers. */
export interface OrderCounts {
  /** How often another fabric is taken in hand between one position and the next. */
  readonly fabricChanges: number;
  /** Patches lighter than one they are sewn to, whose dark allowance may show through. */
  readonly lightOverDark: number;
}

/** Counts for a section sewn in some order of its patches. */
export function orderCounts(
  plan: PiecingPlan,
  section: Section,
  order: readonly string[],
  lightness: Lightness,
): OrderCounts {
  const byId = new Map(plan.patches.map((patch) => [patch.id, patch]));
  const fabrics = order.map((id) => byId.get(id)?.fabric);
  return {
    fabricChanges: fabrics.filter((fabric, k) => k > 0 && fabric !== fabrics[k - 1]).length,
    lightOverDark: darkUnder({ ...section, order }, byId, lightness).length,
  };
}
