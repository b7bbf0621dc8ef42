import type { Finding, PiecingPlan, Severity, Verdict } from '../plan.ts';

/** What a drawing comes to, in the numbers by which changes are compared. */
export interface Tally {
  readonly foundations: number;
  readonly patches: number;
  readonly setInJoins: number;
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
    setInJoins: joins.filter(({ kind }) => kind === 'set-in').length,
    troubles: count('trouble'),
    cautions: count('caution'),
  };
}

export const standingOf = (plan: PiecingPlan): Standing => ({
  verdict: plan.verdict,
  ...tallyOf(plan, plan.findings),
});

/**
 * Better means, in this order: fewer set-in joins, fewer troubles, fewer foundations (one caution more may be the
 * price), fewer cautions.
 */
export function isBetter(a: Tally, b: Tally): boolean {
  if (a.setInJoins !== b.setInJoins) return a.setInJoins < b.setInJoins;
  if (a.troubles !== b.troubles) return a.troubles < b.troubles;
  if (a.foundations !== b.foundations) return a.foundations < b.foundations && a.cautions <= b.cautions + 1;
  return a.cautions < b.cautions;
}
