import { phrase } from '../words/phrase.ts';
import type { Block } from './block.ts';
import type { SewingPlan, Verdict } from './plan.ts';
import { boundaryOf } from './verify/boundary.ts';
import { joinFaults } from './verify/joins.ts';
import { orderFaults } from './verify/orders.ts';
import { topologyFaults } from './verify/topology.ts';

/**
 * Checks a plan by the rule itself, from the polygons of its patches alone: for every position after the first,
 * all the boundary the patch shares with earlier ones is one straight, unbroken stretch; every straight join is
 * one too; every patch has its place. And all that is printed of it: seams, stretches, registration points, outlines,
 * edges and neighbours are those of the polygons. Knows nothing of how the plan was found, and of the
 * drawing only where its lines run; fabrics, and whether fewer foundations would do, it takes as told.
 * Result: the faults as sentences, none for a plan that may be printed. Cost: O(edges).
 */
export function verifyPlan(plan: SewingPlan, drawing: Pick<Block, 'outline' | 'cuts'>): string[] {
  if (plan.verdict === 'broken') return [];
  const boundary = boundaryOf(plan.patches);
  if (boundary.numberOfPatch.size !== plan.patches.length)
    return [phrase('Two patches are called the same.')];
  return [
    ...orderFaults(plan, boundary),
    ...topologyFaults(plan, drawing, boundary),
    ...joinFaults(plan, boundary),
    ...(plan.verdict === verdictOf(plan)
      ? []
      : [
          phrase('The plan is {verdictOf}, not {verdict}.', {
            verdictOf: verdictOf(plan),
            verdict: plan.verdict,
          }),
        ]),
    ...(plan.sections.length === 1 && !plan.fewest
      ? [phrase('One foundation is the fewest there can be.')]
      : []),
  ];
}

function verdictOf({ patches, sections, joins }: SewingPlan): Verdict {
  if (joins.some(({ kind }) => kind === 'set-in')) return 'set-in-seams';
  if (joins.some(({ kind }) => kind === 'partial')) return 'partial-seams';
  if (sections.length > 1) return 'several-foundations';
  return patches.length > 1 ? 'one-foundation' : 'undivided';
}
