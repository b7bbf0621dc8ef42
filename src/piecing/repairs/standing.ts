import { setInCornersOf } from '../measure.ts';
import type { Finding, PiecingPlan, Severity, Verdict } from '../plan.ts';

/** What a drawing comes to, in the numbers by which changes are compared. */
export interface Tally {
  readonly foundations: number;
  readonly patches: number;
  /** Corners that set-in joins turn. */
  readonly setInCorners: number;
  /** Findings that are trouble, and those that are cautions. */
  readonly troubles: number;
  readonly cautions: number;
}

/** Where a block stands: its verdict, and the numbers a repair is judged by. */
export interface Standing extends Tally {
  readonly verdict: Verdict;
}

export function tallyOf(
  { patches, sections, joins }: Pick<PiecingPlan, 'patches' | 'sections' | 'joins'>,
  findings: readonly Finding[],
): Tally {
  const count = (severity: Severity): number => findings.filter((f) => f.severity === severity).length;
  return {
    foundations: sections.length,
    patches: patches.length,
    setInCorners: setInCornersOf(joins),
    troubles: count('trouble'),
    cautions: count('caution'),
  };
}

export const standingOf = (plan: PiecingPlan): Standing => ({
  verdict: plan.verdict,
  ...tallyOf(plan, plan.findings),
});

/**
 * Better means, in this order: fewer corners to set in, fewer troubles, fewer foundations (one caution more may be the
 * price), fewer cautions.
 */
export function isBetter(a: Tally, b: Tally): boolean {
  if (a.setInCorners !== b.setInCorners) return a.setInCorners < b.setInCorners;
  if (a.troubles !== b.troubles) return a.troubles < b.troubles;
  if (a.foundations !== b.foundations) return a.foundations < b.foundations && a.cautions <= b.cautions + 1;
  return a.cautions < b.cautions;
}

/**
 * What a change that draws loose ends on must better: what was drawn is meant, so that the foundations it takes do not count,
 * only what is awkward before and after.
 */
export const whatIsMeant = (before: Tally): Tally => ({
  ...before,
  foundations: Number.POSITIVE_INFINITY,
  cautions: before.cautions - 2,
});
