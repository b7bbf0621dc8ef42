import type { Project } from '../../document/project.ts';
import { isBlockPlace } from '../../document/quilt.ts';
import { type Matching, matchingOf } from '../../quilt/matching.ts';
import { planAtHand, plansCome } from '../../workspace/plans.ts';
import { joinedOf, layoutOf } from './shown-quilt.ts';

let known: { readonly parts: readonly unknown[]; readonly matching: Matching | null } | null = null;

/** What must match on the joints of the quilt, from the plans there are; the others come one by one. */
export function matchingShown(project: Project): Matching | null {
  const layout = layoutOf(project);
  const joined = joinedOf(project);
  const parts = [layout, joined, project.blocks, plansCome.getState()];
  if (known?.parts.every((part, k) => part === parts[k])) return known.matching;
  const used = new Set(layout.pieces.flatMap(({ place }) => (isBlockPlace(place) ? [place.block] : [])));
  const plans = new Map(
    project.blocks.filter(({ id }) => used.has(id)).map((block) => [block.id, planAtHand(block)]),
  );
  const matching = joined.ok
    ? matchingOf(layout, joined.plan.steps, project.blocks, (id) => plans.get(id)?.patches ?? null)
    : null;
  known = { parts, matching };
  return matching;
}
