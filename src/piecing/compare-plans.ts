import { STRAIGHT_IN } from '../geometry/lattice.ts';
import type { PlanChoice } from './block.ts';
import { measurePlan } from './measure.ts';
import type { PiecingPlan } from './plan.ts';

/** Plans of one block beside each other: which really differ, and what each costs. */

export const PLAN_NAMES: Readonly<Record<PlanChoice, string>> = {
  fewest: 'Fewest foundations',
  rows: 'In rows',
  columns: 'In columns',
  'least-matching': 'Least matching',
  'unit-first': 'A finished unit first',
  'partial-seams': 'With a partial seam',
};

/** Have two plans of one block the same sections and the same joins, whatever their letters and steps? */
export function isSamePlan(a: PiecingPlan, b: PiecingPlan): boolean {
  return shapeOf(a) === shapeOf(b);
}

function shapeOf({ patches, sections, joins, verdict }: PiecingPlan): string {
  const spotOf = new Map(patches.map(({ id, polygon }) => [id, polygon.join(' ')]));
  const groups = new Map(
    sections.map(({ letter, order }) => [
      letter,
      order
        .map((id) => spotOf.get(id))
        .sort()
        .join(';'),
    ]),
  );
  const parts = sections.map(
    ({ letter, startsFrom }) =>
      `${groups.get(letter)} on ${startsFrom.map((base) => groups.get(base)).sort()}`,
  );
  const seams = joins.map(({ kind, seam }) => `${kind} ${seam.map(String).sort().join(' ')}`);
  return [verdict, ...parts.sort(), ...seams.sort()].join('\n');
}

/**
 * What a plan costs against the one with the fewest foundations, in one plain sentence: `One paper more, but all joins
 * run level.`
 */
export function costWords(plan: PiecingPlan, fewest: PiecingPlan): string {
  if (isSamePlan(plan, fewest)) {
    if (plan.sections.length === 1) return 'One paper, nothing to join.';
    return fewest.fewest ? 'As few papers as can be, each begun with a patch.' : 'The fewest papers found.';
  }
  const [own, least] = [measurePlan(plan), measurePlan(fewest)];
  const more = own.foundations - least.foundations;
  const papers =
    more === 0 ? 'As many papers' : `${countWord(Math.abs(more), 'paper')} ${more > 0 ? 'more' : 'fewer'}`;
  const gains: string[] = [];
  const losses: string[] = [];
  const lies = joinsLie(plan);
  if (lies !== null && joinsLie(fewest) !== lies) gains.push(`all joins run ${lies}`);
  else compare(own.biasJoins, least.biasJoins, 'join on the bias', 'joins on the bias');
  compare(own.matchPoints, least.matchPoints, 'seam to match', 'seams to match');
  if (own.matchPoints === least.matchPoints)
    compare(own.meetings, least.meetings, 'spot to pin', 'spots to pin');
  if (own.setInCorners !== least.setInCorners)
    compare(own.setInCorners, least.setInCorners, 'set-in corner', 'set-in corners');
  const onUnit = plan.sections.filter(({ startsFrom }) => startsFrom.length > 0).map(({ letter }) => letter);
  if (onUnit.length > 0)
    losses.push(
      onUnit.length === 1
        ? `paper ${onUnit[0]} starts from a finished unit`
        : `${onUnit.length} papers start from a finished unit`,
    );
  const good = gains.join(' and ');
  const bad = losses.join(' and ');
  if (more > 0) {
    if (good === '') return `${papers}${bad === '' ? '' : `, and ${bad}`}, with nothing gained.`;
    return `${papers}, but ${good}${bad === '' ? '' : `, though ${bad}`}.`;
  }
  if (good === '') return `${papers}${bad === '' ? ', parted elsewhere' : `, but ${bad}`}.`;
  return `${papers}, and ${good}${bad === '' ? '' : `, but ${bad}`}.`;

  function compare(mine: number, other: number, one: string, many: string): void {
    if (mine < other)
      gains.push(mine === 0 ? `no ${many}` : `${other - mine} fewer ${other - mine === 1 ? one : many}`);
    if (mine > other) losses.push(`${mine - other} more ${mine - other === 1 ? one : many}`);
  }
}

/** How all joins of a plan lie, when they all lie alike. */
function joinsLie({ joins }: PiecingPlan): 'level' | 'upright' | null {
  const stretches = joins.flatMap((join) => join.stretches);
  if (stretches.length === 0) return null;
  if (stretches.every(([a, b]) => Math.abs(a[1] - b[1]) <= STRAIGHT_IN)) return 'level';
  if (stretches.every(([a, b]) => Math.abs(a[0] - b[0]) <= STRAIGHT_IN)) return 'upright';
  return null;
}

const countWord = (count: number, noun: string): string =>
  count === 1 ? `One ${noun}` : `${count} ${noun}s`;
