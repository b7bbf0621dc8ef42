import { isOneStretch } from '../../geometry/one-stretch.ts';
import { distance } from '../../geometry/ring.ts';
import { phrase } from '../../words/phrase.ts';
import type { Join, SewingPlan } from '../plan.ts';
import { type Boundary, contactBetween, type Side } from './boundary.ts';
import { type Orders, patchesIn, pointFaults, type Unit, type Units } from './points.ts';
import { isSameStretch, liesOn, ONE_SPOT_IN, spanOf } from './stretch.ts';

/**
 * Joins unite units that are there, two by two, until one is left; each along what the two share, and pinned where
 * seams meet it. A section that starts from a unit takes that unit in as soon as it is there.
 */
export function joinFaults(plan: SewingPlan, boundary: Boundary): string[] {
  const faults: string[] = [];
  const unitOf = new Map(plan.sections.map(({ letter }) => [letter, letter]));
  /** Name of the unit that is made of just these sections, or null when there is none yet. */
  const unit = (letters: readonly string[]): string | null => {
    const names = new Set(letters.map((letter) => unitOf.get(letter)));
    const [name] = names;
    const members = [...unitOf.values()].filter((n) => n === name).length;
    return names.size === 1 && name !== undefined && members === letters.length ? name : null;
  };
  const waiting = new Set(plan.sections.filter(({ startsFrom }) => startsFrom.length > 0));
  const sewOn = (): void => {
    for (const section of waiting) {
      const name = unit(section.startsFrom);
      if (name === null) continue;
      unitOf.set(section.letter, name);
      waiting.delete(section);
      sewOn();
      return;
    }
  };
  const orderOf = new Map(plan.sections.map(({ letter, order }) => [letter, order]));
  const sectionOf = new Map(plan.patches.map(({ id, section }) => [id, section]));
  const isIn =
    (name: string) =>
    (patch: string): boolean =>
      unitOf.get(sectionOf.get(patch)!) === name;
  plan.joins.forEach((join, k) => {
    sewOn();
    if (join.step !== k + 1) faults.push(phrase('Join {step} is not the next step.', { step: join.step }));
    const left = unit(join.left);
    const right = unit(join.right);
    if (left === null || right === null || left === right) {
      faults.push(phrase('Join {step} needs units that are not made before it.', { step: join.step }));
      return;
    }
    const units = [
      { sections: join.left, has: isIn(left) },
      { sections: join.right, has: isIn(right) },
    ] as const;
    const contact = contactOf(units, orderOf, boundary);
    const seam = seamFaults(join, contact);
    if (join.kind === 'partial' && !finishesAnother(plan, join))
      faults.push(phrase('Join {step} does not finish a seam begun before it.', { step: join.step }));
    faults.push(...(seam.length > 0 ? seam : pointFaults(join, contact, units, orderOf, boundary)));
    for (const letter of join.right) unitOf.set(letter, left);
  });
  sewOn();
  if (new Set(unitOf.values()).size > 1) faults.push(phrase('The sections are not all joined.'));
  return faults;
}

/** What the units of a join share, from the left one; read off the one with fewer patches. */
function contactOf([left, right]: Units, orderOf: Orders, boundary: Boundary): Side[] {
  const sizeOf = ({ sections }: Unit): number =>
    sections.reduce((sum, letter) => sum + (orderOf.get(letter)?.length ?? 0), 0);
  if (sizeOf(left) <= sizeOf(right)) return contactBetween(boundary, patchesIn(left, orderOf), right.has);
  return contactBetween(boundary, patchesIn(right, orderOf), left.has).map(
    ({ edge: [a, b], patch, other }) => ({
      edge: [b, a],
      patch: other!,
      other: patch,
    }),
  );
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
function seamFaults({ step, kind, seam, stretches }: Join, contact: readonly Side[]): string[] {
  const edges = contact.map(({ edge }) => edge);
  if (kind === 'straight') {
    if (!isOneStretch(edges)) return [phrase('Join {step} is not one straight seam.', { step })];
    const isTold =
      stretches.length === 1 && isSameStretch(stretches[0]!, seam) && isSameStretch(seam, spanOf(edges));
    return isTold ? [] : [phrase('Join {step} does not run along its seam.', { step })];
  }
  // A seam that turns within the width of a line may be called either.
  if (edges.length === 0 || stretches.length < 2) return [phrase('Join {step} is not set in.', { step })];
  const lengthOf = (
    some: readonly (readonly [readonly [number, number], readonly [number, number]])[],
  ): number => some.reduce((sum, [a, b]) => sum + distance(a, b), 0);
  const isTold =
    stretches.length > 0 &&
    Math.abs(lengthOf(edges) - lengthOf(stretches)) <= ONE_SPOT_IN * (stretches.length + 1) &&
    edges.every((edge) => stretches.some((stretch) => edge.every((at) => liesOn(at, stretch)))) &&
    distance(seam[0], stretches[0]![0]) <= ONE_SPOT_IN &&
    distance(seam[1], stretches.at(-1)![1]) <= ONE_SPOT_IN;
  return isTold ? [] : [phrase('Join {step} does not run along its stretches.', { step })];
}
