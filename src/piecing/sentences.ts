import { formatLength, type LengthUnit } from '../geometry/length.ts';
import type { Point } from '../geometry/point.ts';
import { distance } from '../geometry/ring.ts';
import { phrase } from '../words/phrase.ts';
import { setInCornersOf } from './measure.ts';
import type { Join, Patch, PiecingPlan, Section } from './plan.ts';
import type { RehearsalStep } from './rehearsal.ts';

/** The words in which a plan is told, the same on every screen and on the command line. */

/** Whether and how a block can be sewn, in one sentence with its number. */
export function verdictSentence(plan: PiecingPlan): string {
  switch (plan.verdict) {
    case 'undivided':
      return phrase('One patch, nothing to sew.');
    case 'one-foundation':
      return phrase('Sews on one foundation.');
    case 'several-foundations':
      return phrase('Sews on {sections} foundations, {fewestWords}.', {
        sections: plan.sections.length,
        fewestWords: fewestWords(plan),
      });
    case 'partial-seams':
      return phrase('Sews on {sections} foundations with {partialWords}, all seams straight.', {
        sections: plan.sections.length,
        partialWords: partialWords(plan.joins),
      });
    case 'set-in-seams':
      return phrase('Cannot be joined with straight seams: {cornersTurned}.', {
        cornersTurned: cornersTurned(plan.joins),
      });
    case 'broken':
      return plan.findings[0]?.message ?? phrase('Cannot be pieced as drawn.');
  }
}

/** A plan whose papers may start from a finished unit is the fewest among such plans only. */
function fewestWords({ fewest, sections }: PiecingPlan): string {
  if (!fewest) return phrase('perhaps not the fewest');
  return sections.some(({ startsFrom }) => startsFrom.length > 0)
    ? phrase('the fewest where a paper may start from a finished unit')
    : phrase('the fewest possible');
}

function partialWords(joins: readonly Join[]): string {
  const count = joins.filter(({ kind }) => kind === 'partial').length;
  return count === 1 ? phrase('a partial seam') : phrase('{count} partial seams', { count });
}

function cornersTurned(joins: readonly Join[]): string {
  const steps = joins.filter(({ kind }) => kind === 'set-in').map(({ step }) => step);
  const corners = setInCornersOf(joins);
  if (steps.length > 1) return phrase('{corners} corners to set in', { corners });
  return phrase('join {step} turns {corners, plural, one {a corner} other {# corners}}', {
    step: steps[0],
    corners,
  });
}

/** The order of a foundation: `A1 A2 A3`, or `A and B joined, C2 C3` where a finished unit is its position 1. */
export function orderWords({ order, startsFrom }: Pick<Section, 'order' | 'startsFrom'>): string {
  const unit =
    startsFrom.length === 1
      ? `${startsFrom[0]}, `
      : phrase('{startsFrom} joined, ', { startsFrom: listed(startsFrom) });
  return `${startsFrom.length === 0 ? '' : unit}${order.join(' ')}`;
}

/** `A and B to C`, the two units that a join unites. */
export const joinedUnits = ({ left, right }: Pick<Join, 'left' | 'right'>): string =>
  phrase('{left} to {right}', { left: listed(left), right: listed(right) });

/** One join in a sentence: `Join A and B to C, a straight seam of 6 in.` */
export function joinSentence(join: Join, unit: LengthUnit): string {
  const length = join.stretches.reduce((sum, [from, to]) => sum + distance(from, to), 0);
  const seam =
    join.kind === 'straight'
      ? phrase('a straight seam')
      : join.kind === 'partial'
        ? phrase('a straight seam and the rest of join {step},', { step: join.finishes?.step })
        : phrase('a seam that turns a corner, set in,');
  const open = join.leftOpen
    ? phrase(', left open at its end until join {step}', { step: join.leftOpen.step })
    : '';
  return phrase('Join {joinedUnits}, {seam} of {length}{open}.', {
    joinedUnits: joinedUnits(join),
    seam,
    length: formatLength(length, unit),
    open,
  });
}

/** What serves as position 1 of a paper that starts from a finished unit: `A and B, joined`. */
export const unitWords = (letters: readonly string[]): string =>
  letters.length === 1
    ? phrase('{letter}, finished', { letter: letters[0] })
    : phrase('{letters}, joined', { letters: listed(letters) });

/** What a step of the rehearsal is called under its picture: `A1`, `C1 = A and B`, `Join 2`. */
export function stepName(step: RehearsalStep): string {
  switch (step.kind) {
    case 'place':
    case 'sew':
      return step.patch.id;
    case 'start':
      return `${step.section}1 = ${step.unit.join('')}`;
    case 'join':
      return phrase('Join {step}', { step: step.join.step });
  }
}

/** How lengths are told: the allowance in inches, and the unit it is shown in. */
export interface StepWords {
  readonly allowance: number;
  readonly unit: LengthUnit;
  /** The name of a fabric by its id, where it is known; without it no fabrics are named. */
  readonly fabricName?: (id: string) => string | null;
}

/** What is done in a step of the rehearsal, in one plain sentence. Common practice throughout. */
export function stepSentence(step: RehearsalStep, { allowance, unit, fabricName }: StepWords): string {
  const cloth = ({ id, fabric }: Patch): string => {
    const name = fabric === null ? null : (fabricName?.(fabric) ?? null);
    return name === null ? id : `${id} (${name})`;
  };
  const width = formatLength(allowance, unit);
  switch (step.kind) {
    case 'place':
      return phrase(
        'Lay {cloth} right side up on the blank side of paper {section}, so that it covers its place and {width} all round.',
        { cloth: cloth(step.patch), section: step.section, width },
      );
    case 'start':
      return phrase(
        'Lay the finished unit {unitWords}, right side up on the blank side of paper {section}, each seam on its line: it is position 1 there.',
        { unitWords: unitWords(step.unit), section: step.section },
      );
    case 'sew': {
      const on = listed(step.onto);
      const trim = step.isLastOfSection
        ? phrase('trim paper and fabric {width} outside the outline', { width })
        : phrase('trim to {width}', { width });
      return phrase(
        'Lay {cloth} right sides together on {on}, stitch the line between them, flip, press, {trim}.',
        { cloth: cloth(step.patch), on, trim },
      );
    }
    case 'join': {
      const { join, press } = step;
      const pins = pinWords(join);
      const pressed = press === 'open' ? phrase('press the seam open') : phrase('press the seam to one side');
      if (join.leftOpen)
        return phrase(
          'Pin {joinedUnits} right sides together{pins}, stitch the seam but stop at the dot before {labelAt} and leave the rest open: it is sewn with join {step}. Take the paper out of its allowance, {pressed} as far as it is sewn.',
          {
            joinedUnits: joinedUnits(join),
            pins,
            labelAt: labelAt(join, join.leftOpen.at),
            step: join.leftOpen.step,
            pressed,
          },
        );
      if (join.kind === 'partial')
        return phrase(
          'Pin {joinedUnits} right sides together along the straight seam, the loose part of join {step} folded out of the way, and stitch it; then pin the rest of join {step} and stitch it on from the dot, to the end. Take the paper out of the allowance, {pressed}.',
          { joinedUnits: joinedUnits(join), step: join.finishes?.step, pressed },
        );
      return join.kind === 'straight'
        ? phrase(
            'Pin {joinedUnits} right sides together{pins}, stitch the seam, take the paper out of its allowance, {pressed}.',
            { joinedUnits: joinedUnits(join), pins, pressed },
          )
        : phrase(
            'Pin {joinedUnits} right sides together{pins} one stretch at a time, stitch from corner to corner with the needle down at each turn, take the paper out of the allowance, {pressed}.',
            { joinedUnits: joinedUnits(join), pins, pressed },
          );
    }
  }
}

/** The label of a join's point at a place. */
export const labelAt = ({ points }: Join, [x, y]: Point): string =>
  points.find(({ at }) => at[0] === x && at[1] === y)?.label ?? phrase('its end');

function pinWords({ points }: Join): string {
  const [first, last] = [points[0], points.at(-1)];
  if (first === undefined || last === undefined || first === last) return '';
  return phrase(' at {label} to {label2}', { label: first.label, label2: last.label });
}

/** A word of care for the tool that is taken in hand for the first time. */
export interface Caution {
  readonly tool: 'needle' | 'iron' | 'cutter';
  readonly text: string;
}

const NEEDLE: Caution = {
  tool: 'needle',
  text: phrase(
    'Keep fingers clear of the needle, and stop it before you turn the paper. A stitch of about 1.5 mm lets the paper tear off later.',
  ),
};
const IRON: Caution = {
  tool: 'iron',
  text: phrase(
    'Press with a dry iron from the fabric side: steam curls the paper, and some prints come off on the iron.',
  ),
};
const CUTTER: Caution = {
  tool: 'cutter',
  text: phrase('Cut away from your hands along a ruler, and close the blade after every cut.'),
};

/** The words of care that apply first at each step, by its place in the rehearsal. Each is said once. */
export function cautionsOf(steps: readonly RehearsalStep[]): ReadonlyMap<number, readonly Caution[]> {
  const cautions = new Map<number, readonly Caution[]>();
  const firstTool = steps.findIndex(({ kind }) => kind === 'sew');
  const firstSeam = firstTool >= 0 ? firstTool : steps.findIndex(({ kind }) => kind === 'join');
  if (firstSeam >= 0) cautions.set(firstSeam, [NEEDLE, IRON]);
  const firstCut = steps.length > 1 ? steps.findIndex(({ kind }) => kind !== 'join') : -1;
  if (firstCut >= 0) cautions.set(firstCut, [...(cautions.get(firstCut) ?? []), CUTTER]);
  return cautions;
}

/** `A`, `A and B`, `A, B and C`. */
export function listed(items: readonly (string | number)[]): string {
  if (items.length <= 1) return items.join('');
  return phrase('{items} and {items2}', { items: items.slice(0, -1).join(', '), items2: items.at(-1) });
}
