import type { Join, PiecingPlan } from '../../src/piecing/plan.ts';
import type { Standing, Tally } from '../../src/piecing/repairs/standing.ts';

/** Stretches that follow another: all but one, and all where the seam goes round to where it began. */
export const cornersIn = ({ stretches }: Join): number =>
  stretches.length - (`${stretches[0]![0]}` === `${stretches.at(-1)![1]}` ? 0 : 1);

/** Where a plan stands, counted here from the plan alone. */
export function counted(plan: PiecingPlan): Standing {
  return {
    verdict: plan.verdict,
    foundations: new Set(plan.patches.map((patch) => patch.section)).size,
    patches: plan.patches.length,
    setInCorners: plan.joins.reduce((sum, join) => sum + (join.kind === 'set-in' ? cornersIn(join) : 0), 0),
    troubles: plan.findings.reduce((sum, finding) => sum + (finding.severity === 'trouble' ? 1 : 0), 0),
    cautions: plan.findings.reduce((sum, finding) => sum + (finding.severity === 'caution' ? 1 : 0), 0),
  };
}

/**
 * Is `a` better than `b`, judged here: fewer corners set in, else fewer troubles, else fewer foundations, for which one
 * more caution is not too dear and two are, else fewer cautions?
 */
export function isBetter(a: Tally, b: Tally): boolean {
  const gains: readonly number[] = [
    b.setInCorners - a.setInCorners,
    b.troubles - a.troubles,
    b.foundations - a.foundations,
    b.cautions - a.cautions,
  ];
  const first = gains.findIndex((gain) => gain !== 0);
  if (first < 0 || gains[first]! < 0) return false;
  return first !== 2 || gains[3]! >= -1;
}

/** The same of loose ends drawn on, whatever papers that takes: fewer corners, else fewer troubles, else fewer cautions. */
export function isBetterAsMeant(a: Tally, b: Tally): boolean {
  const gains = [b.setInCorners - a.setInCorners, b.troubles - a.troubles, b.cautions - a.cautions];
  return (gains.find((gain) => gain !== 0) ?? 0) > 0;
}
