import { isOneStretch } from '../../geometry/one-stretch.ts';
import type { Segment } from '../../geometry/point.ts';
import { distance } from '../../geometry/ring.ts';
import { phrase } from '../../words/phrase.ts';
import type { Join, SewingPlan } from '../plan.ts';
import { addContact, type Boundary } from './boundary.ts';
import { type Contact, pointFaults } from './points.ts';
import { isSameStretch, liesOn, ONE_SPOT_IN, spanOf } from './stretch.ts';
import { startingUnits, type Unit } from './units.ts';

/**
 * Joins unite units that are there, two by two, until one is left; each along what the two share, and pinned where
 * seams meet it. A section that starts from a unit takes that unit in as soon as it is there.
 */
export function joinFaults(plan: SewingPlan, boundary: Boundary): string[] {
  const faults: string[] = [];
  const units = startingUnits(plan, boundary);
  plan.joins.forEach((join, k) => {
    units.sewOn();
    if (join.step !== k + 1) faults.push(phrase('Join {step} is not the next step.', { step: join.step }));
    const left = units.madeOf(join.left);
    const right = units.madeOf(join.right);
    if (left === null || right === null || left === right) {
      faults.push(phrase('Join {step} needs units that are not made before it.', { step: join.step }));
      return;
    }
    const contact = contactOf(left, right, units.unitOf, boundary);
    const seam = seamFaults(join, contact);
    if (join.kind === 'partial' && !finishesAnother(plan, join))
      faults.push(phrase('Join {step} does not finish a seam begun before it.', { step: join.step }));
    faults.push(
      ...(seam.length > 0 ? seam : pointFaults(join, contact, [left, right], units.unitOf, boundary)),
    );
    units.unite(left, right);
  });
  units.sewOn();
  if (units.count() > 1) faults.push(phrase('The sections are not all joined.'));
  return faults;
}

/** What the units of a join share, side by side from the left one; read off the one with fewer patches. */
function contactOf(left: Unit, right: Unit, unitOf: (patch: number) => Unit, boundary: Boundary): Contact[] {
  const { edges, patch, beyond } = boundary;
  const isFromLeft = left.patches.length <= right.patches.length;
  const [own, other] = isFromLeft ? [left, right] : [right, left];
  const sides: number[] = [];
  const isOther = (p: number): boolean => unitOf(p) === other;
  for (const p of own.patches) addContact(boundary, p, isOther, sides);
  return sides.map((side) => {
    const [a, b] = edges[side]!;
    const [here, there] = [patch[side]!, beyond[side]!];
    return isFromLeft
      ? { edge: [a, b], left: here, right: there }
      : { edge: [b, a], left: there, right: here };
  });
}

/** Is a partial join two straight stretches, one of which goes straight on from an earlier seam left open for it? */
function finishesAnother({ joins }: SewingPlan, { step, stretches, finishes }: Join): boolean {
  const begun = joins.find((one) => one.step === finishes?.step);
  return (
    finishes !== undefined &&
    begun?.kind === 'straight' &&
    begun.step < step &&
    begun.leftOpen?.step === step &&
    stretches.length === 2 &&
    isOneStretch([finishes.rest, begun.seam])
  );
}

/** Is the seam all that the two units share: in one stretch where it is straight, in more where it is set in? */
function seamFaults({ step, kind, seam, stretches }: Join, contact: readonly Contact[]): string[] {
  const edges = contact.map(({ edge }) => edge);
  if (kind === 'straight') {
    if (!isOneStretch(edges)) return [phrase('Join {step} is not one straight seam.', { step })];
    const isTold =
      stretches.length === 1 && isSameStretch(stretches[0]!, seam) && isSameStretch(seam, spanOf(edges));
    return isTold ? [] : [phrase('Join {step} does not run along its seam.', { step })];
  }
  // A seam that turns within the width of a line may be called either.
  if (edges.length === 0 || stretches.length < 2) return [phrase('Join {step} is not set in.', { step })];
  const lengthOf = (some: readonly Segment[]): number =>
    some.reduce((sum, [a, b]) => sum + distance(a, b), 0);
  const isTold =
    stretches.length > 0 &&
    Math.abs(lengthOf(edges) - lengthOf(stretches)) <= ONE_SPOT_IN * (stretches.length + 1) &&
    edges.every((edge) => stretches.some((stretch) => edge.every((at) => liesOn(at, stretch)))) &&
    distance(seam[0], stretches[0]![0]) <= ONE_SPOT_IN &&
    distance(seam[1], stretches.at(-1)![1]) <= ONE_SPOT_IN;
  return isTold ? [] : [phrase('Join {step} does not run along its stretches.', { step })];
}
