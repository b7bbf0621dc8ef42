import { STRAIGHT_IN } from '../geometry/lattice.ts';
import { inList } from '../words/numeral.ts';
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
      : phrase('{n, plural, one {One paper} other {# papers}} {isMore, select, true {more} other {fewer}}', {
          n: Math.abs(more),
          isMore: more > 0,
        });
  const gains: string[] = [];
  const losses: string[] = [];
  const lies = joinsLie(plan);
  if (lies !== null && joinsLie(fewest) !== lies)
    gains.push(phrase('all joins run {lies, select, level {horizontally} other {vertically}}', { lies }));
  else compare(own.biasJoins, least.biasJoins, BIAS);
  compare(own.matchPoints, least.matchPoints, MATCHES);
  if (own.matchPoints === least.matchPoints) compare(own.meetings, least.meetings, SPOTS);
  if (own.setInCorners !== least.setInCorners) compare(own.setInCorners, least.setInCorners, CORNERS);
  const onUnit = plan.sections.filter(({ startsFrom }) => startsFrom.length > 0).map(({ letter }) => letter);
  if (onUnit.length > 0)
    losses.push(
      onUnit.length === 1
        ? phrase('paper {onUnit} starts from a finished unit', { onUnit: onUnit[0] })
        : phrase('{onUnit} papers start from a finished unit', { onUnit: onUnit.length }),
    );
  const good = inList(gains);
  const bad = inList(losses);
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

  function compare(mine: number, other: number, words: Compared): void {
    if (mine < other) gains.push(mine === 0 ? words.none : words.fewer(other - mine));
    if (mine > other) losses.push(words.more(mine - other));
  }
}

/** What is said of plans that differ in one number. */
interface Compared {
  readonly none: string;
  readonly fewer: (n: number) => string;
  readonly more: (n: number) => string;
}

const BIAS: Compared = {
  none: phrase('no joins on the bias'),
  fewer: (n) => phrase('{n, plural, one {# fewer join} other {# fewer joins}} on the bias', { n }),
  more: (n) => phrase('{n, plural, one {# more join} other {# more joins}} on the bias', { n }),
};

const MATCHES: Compared = {
  none: phrase('no match points'),
  fewer: (n) => phrase('{n, plural, one {# fewer match point} other {# fewer match points}}', { n }),
  more: (n) => phrase('{n, plural, one {# more match point} other {# more match points}}', { n }),
};

const SPOTS: Compared = {
  none: phrase('no spots to pin'),
  fewer: (n) => phrase('{n, plural, one {# fewer spot} other {# fewer spots}} to pin', { n }),
  more: (n) => phrase('{n, plural, one {# more spot} other {# more spots}} to pin', { n }),
};

const CORNERS: Compared = {
  none: phrase('no set-in corners'),
  fewer: (n) => phrase('{n, plural, one {# fewer set-in corner} other {# fewer set-in corners}}', { n }),
  more: (n) => phrase('{n, plural, one {# more set-in corner} other {# more set-in corners}}', { n }),
};

/** How all joins of a plan lie, when they all lie alike. */
function joinsLie({ joins }: PiecingPlan): 'level' | 'upright' | null {
  const stretches = joins.flatMap((join) => join.stretches);
  if (stretches.length === 0) return null;
  if (stretches.every(([a, b]) => Math.abs(a[1] - b[1]) <= STRAIGHT_IN)) return 'level';
  if (stretches.every(([a, b]) => Math.abs(a[0] - b[0]) <= STRAIGHT_IN)) return 'upright';
  return null;
}
