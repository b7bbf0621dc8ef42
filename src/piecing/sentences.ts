import { formatLength, type LengthUnit } from '../geometry/length.ts';
import { distance } from '../geometry/ring.ts';
import type { Join, PiecingPlan, Section } from './plan.ts';

/** The words in which a plan is told, the same on every screen and on the command line. */

/** Whether and how a block can be sewn, in one sentence with its number. */
export function verdictSentence(plan: PiecingPlan): string {
  switch (plan.verdict) {
    case 'undivided':
      return 'One patch, nothing to sew.';
    case 'one-foundation':
      return 'Sews on one foundation.';
    case 'several-foundations':
      return `Sews on ${plan.sections.length} foundations, ${plan.fewest ? 'the fewest possible' : 'perhaps not the fewest'}.`;
    case 'set-in-seams':
      return `Cannot be joined with straight seams: ${cornersTurned(plan.joins)}.`;
    case 'broken':
      return plan.findings[0]?.message ?? 'Cannot be pieced as drawn.';
  }
}

function cornersTurned(joins: readonly Join[]): string {
  const steps = joins.filter(({ kind }) => kind === 'set-in').map(({ step }) => step);
  return steps.length === 1 ? `join ${steps[0]} turns a corner` : `joins ${listed(steps)} turn corners`;
}

/** The order of a foundation: `A1 A2 A3`, or `A and B joined, C2 C3` where a finished unit is its position 1. */
export function orderWords({ order, startsFrom }: Pick<Section, 'order' | 'startsFrom'>): string {
  const unit = startsFrom.length === 1 ? `${startsFrom[0]}, ` : `${listed(startsFrom)} joined, `;
  return `${startsFrom.length === 0 ? '' : unit}${order.join(' ')}`;
}

/** `A and B to C`, the two units that a join unites. */
export const joinedUnits = ({ left, right }: Pick<Join, 'left' | 'right'>): string =>
  `${listed(left)} to ${listed(right)}`;

/** One join in a sentence: `Join A and B to C, a straight seam of 6 in.` */
export function joinSentence(join: Join, unit: LengthUnit): string {
  const length = join.stretches.reduce((sum, [from, to]) => sum + distance(from, to), 0);
  const seam = join.kind === 'straight' ? 'a straight seam' : 'a seam that turns a corner, set in,';
  return `Join ${joinedUnits(join)}, ${seam} of ${formatLength(length, unit)}.`;
}

/** `A`, `A and B`, `A, B and C`. */
function listed(items: readonly (string | number)[]): string {
  if (items.length <= 1) return items.join('');
  return `${items.slice(0, -1).join(', ')} and ${items.at(-1)}`;
}
