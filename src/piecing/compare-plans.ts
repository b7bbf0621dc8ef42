import { STRAIGHT_IN } from '../geometry/lattice.ts';
import { phrase } from '../words/phrase.ts';
import type { PlanChoice } from './block.ts';
import { measurePlan } from './measure.ts';
import type { PiecingPlan } from './plan.ts';

/** Plans of one block beside each other: which really differ, and what each costs. */

export const PLAN_NAMES: Readonly<Record<PlanChoice, string>> = {
  fewest: phrase('Fewest foundations'),
  rows: phrase('In rows'),
  columns: phrase('In columns'),
  'least-matching': phrase('Least matching'),
  'unit-first': phrase('A finished unit first'),
  'partial-seams': phrase('With a partial seam'),
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
    if (plan.sections.length === 1) return phrase('One paper, nothing to join.');
    return fewest.fewest
      ? phrase('As few papers as can be, each begun with a patch.')
      : phrase('The fewest papers found.');
  }
  const [own, least] = [measurePlan(plan), measurePlan(fewest)];
  const more = own.foundations - least.foundations;
  const papers =
    more === 0
      ? phrase('As many papers')
      : phrase('{countWord} {isMore, select, true {more} other {fewer}}', {
          countWord: countWord(Math.abs(more), 'paper'),
          isMore: more > 0,
        });
  const gains: string[] = [];
  const losses: string[] = [];
  const lies = joinsLie(plan);
  if (lies !== null && joinsLie(fewest) !== lies)
    gains.push(phrase('all joins run {lies, select, level {horizontally} other {vertically}}', { lies }));
  else compare(own.biasJoins, least.biasJoins, phrase('join on the bias'), phrase('joins on the bias'));
  compare(own.matchPoints, least.matchPoints, phrase('match point'), phrase('match points'));
  if (own.matchPoints === least.matchPoints)
    compare(own.meetings, least.meetings, phrase('spot to pin'), phrase('spots to pin'));
  if (own.setInCorners !== least.setInCorners)
    compare(own.setInCorners, least.setInCorners, 'set-in corner', 'set-in corners');
  const onUnit = plan.sections.filter(({ startsFrom }) => startsFrom.length > 0).map(({ letter }) => letter);
  if (onUnit.length > 0)
    losses.push(
      onUnit.length === 1
        ? phrase('paper {onUnit} starts from a finished unit', { onUnit: onUnit[0] })
        : phrase('{onUnit} papers start from a finished unit', { onUnit: onUnit.length }),
    );
  const good = gains.join(' and ');
  const bad = losses.join(' and ');
  if (more > 0) {
    if (good === '')
      return phrase('{papers}{isBad, select, true {} other {, and {bad}}}, with nothing gained.', {
        papers,
        isBad: bad === '',
        bad,
      });
    return phrase('{papers}, but {good}{isBad, select, true {} other {, though {bad}}}.', {
      papers,
      good,
      isBad: bad === '',
      bad,
    });
  }
  if (good === '')
    return phrase('{papers}{isBad, select, true {, parted elsewhere} other {, but {bad}}}.', {
      papers,
      isBad: bad === '',
      bad,
    });
  return phrase('{papers}, and {good}{isBad, select, true {} other {, but {bad}}}.', {
    papers,
    good,
    isBad: bad === '',
    bad,
  });

  function compare(mine: number, other: number, one: string, many: string): void {
    if (mine < other)
      gains.push(
        mine === 0
          ? phrase('no {many}', { many })
          : phrase('{other} fewer {one}', { other: other - mine, one: other - mine === 1 ? one : many }),
      );
    if (mine > other)
      losses.push(phrase('{mine} more {one}', { mine: mine - other, one: mine - other === 1 ? one : many }));
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
  count === 1 ? phrase('One {noun}', { noun }) : `${count} ${noun}s`;
