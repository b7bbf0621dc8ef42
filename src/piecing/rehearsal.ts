import type { Segment } from '../geometry/point.ts';
import type { Join, Patch, PiecingPlan } from './plan.ts';

/**
 * One step at the machine.
 * - `place`: the first patch of a foundation is laid on the blank side of the paper.
 * - `start`: a finished unit is laid as position 1 of a further paper.
 * - `sew`: a patch is laid right sides together, stitched along `seam`, flipped, pressed and trimmed.
 * - `join`: two units are pinned at the registration points and sewn.
 */
export type RehearsalStep = {
  readonly section: string;
  /** Ids of patches that are sewn when this step is done, the newest last. */
  readonly sewn: readonly string[];
} & (
  | { readonly kind: 'place'; readonly patch: Patch }
  | { readonly kind: 'start'; readonly unit: readonly string[] }
  | {
      readonly kind: 'sew';
      readonly patch: Patch;
      readonly seam: Segment;
      /** Ids of the earlier patches on the same paper that lie along the seam. */
      readonly onto: readonly string[];
      readonly isLastOfSection: boolean;
    }
  | { readonly kind: 'join'; readonly join: Join; readonly press: 'open' | 'to-one-side' }
);

/** The foundations of a rehearsal in the order they are sewn: the letter of each, and the step it begins with. */
export const foundationStarts = (
  steps: readonly RehearsalStep[],
): readonly { readonly section: string; readonly step: number }[] =>
  steps.flatMap((step, k) => {
    const before = steps[k - 1];
    const goesOn = before !== undefined && before.kind !== 'join' && before.section === step.section;
    return step.kind === 'join' || goesOn ? [] : [{ section: step.section, step: k }];
  });

/** The whole work on a block in turn: foundations by letter, each join as soon as its units are there. */
export function rehearse(plan: PiecingPlan): RehearsalStep[] {
  const byId = new Map(plan.patches.map((patch) => [patch.id, patch]));
  const steps: RehearsalStep[] = [];
  const sewn: string[] = [];
  const made = new Set<string>();
  const joined = new Set<number>();
  const waiting = new Set(plan.sections);
  const joinWhatIsReady = (): void => {
    for (const join of plan.joins) {
      if (joined.has(join.step) || ![...join.left, ...join.right].every((letter) => made.has(letter)))
        continue;
      // Steps build on each other: a later one never comes before an earlier one of the same unit.
      joined.add(join.step);
      steps.push({
        kind: 'join',
        section: join.right[0]!,
        join,
        press: join.points.some(({ kind }) => kind === 'match') ? 'open' : 'to-one-side',
        sewn: [...sewn],
      });
    }
  };
  const isUnitReady = (letters: readonly string[]): boolean =>
    letters.every((letter) => made.has(letter)) &&
    plan.joins.every(
      ({ step, left, right }) =>
        joined.has(step) || ![...left, ...right].every((letter) => letters.includes(letter)),
    );
  while (waiting.size > 0) {
    const section = [...waiting].find(({ startsFrom }) => isUnitReady(startsFrom));
    if (!section) break;
    waiting.delete(section);
    if (section.startsFrom.length > 0)
      steps.push({ kind: 'start', section: section.letter, unit: section.startsFrom, sewn: [...sewn] });
    const onPaper = new Set(
      plan.patches.filter((patch) => section.startsFrom.includes(patch.section)).map(({ id }) => id),
    );
    section.order.forEach((id, k) => {
      const patch = byId.get(id)!;
      // By the rule of an order, all it shares with what is on the paper lies along its one seam.
      const onto = patch.neighbours.filter((other) => onPaper.has(other));
      sewn.push(id);
      onPaper.add(id);
      steps.push(
        patch.seam
          ? {
              kind: 'sew',
              section: section.letter,
              patch,
              seam: patch.seam,
              onto,
              isLastOfSection: k === section.order.length - 1,
              sewn: [...sewn],
            }
          : { kind: 'place', section: section.letter, patch, sewn: [...sewn] },
      );
    });
    made.add(section.letter);
    joinWhatIsReady();
  }
  return steps;
}
