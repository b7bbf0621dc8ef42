import type { CutFor, FabricPlan } from './cutting-plan.ts';
import { type Slack, toBuy } from './lengths.ts';

export interface Shortage {
  /** Inches of length there are too few. */
  readonly inches: number;
  /** Patches in the strips that cannot be cut from what is there: these could take another fabric. */
  readonly patches: readonly CutFor[];
}

/** How far a length at hand falls short of what is needed; null where it is enough. The tallest strips are cut first. */
export function shortageOf(
  { strips, length }: Pick<FabricPlan, 'strips' | 'length'>,
  slack: Slack,
  atHand: number,
): Shortage | null {
  const needed = toBuy(length, slack).inches;
  if (needed <= atHand + 1e-9) return null;
  let used = 0;
  const patches: CutFor[] = [];
  for (const { height, cuts } of strips) {
    if (toBuy(used + height, slack).inches <= atHand + 1e-9) used += height;
    else patches.push(...cuts.flatMap((cut) => cut.for));
  }
  return { inches: needed - atHand, patches };
}

/** What a length costs, in whatever money its price is in. */
export function costOf(
  length: number,
  slack: Slack,
  price: { readonly amount: number; readonly per: 'yard' | 'metre' },
): number {
  const { yards, metres } = toBuy(length, slack);
  return price.amount * (price.per === 'yard' ? yards : metres);
}
