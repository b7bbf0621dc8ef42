import { isOneStretch } from '../../geometry/one-stretch.ts';
import { phrase } from '../../words/phrase.ts';
import { letters } from '../ids.ts';
import type { SewingPlan } from '../plan.ts';
import { type Boundary, contactBetween } from './boundary.ts';
import { isSameStretch, spanOf } from './stretch.ts';

/**
 * The rule itself: for every position after the first, all the boundary the patch shares with earlier ones is one
 * straight, unbroken stretch, and that is its seam. Each patch has its place, and is called by it.
 */
export function orderFaults(plan: SewingPlan, boundary: Boundary): string[] {
  const faults: string[] = [];
  const patches = new Map(plan.patches.map((patch) => [patch.id, patch]));
  const placed = new Set<string>();
  plan.sections.forEach((section, s) => {
    const { letter, startsFrom, order } = section;
    if (letter !== letters(s)) faults.push(phrase('Section {letter} has the wrong letter.', { letter }));
    const earlier = new Set(plan.patches.filter((p) => startsFrom.includes(p.section)).map((p) => p.id));
    if (startsFrom.length > 0 && earlier.size === 0)
      faults.push(phrase('Section {letter} starts from a unit that is not there.', { letter }));
    const first = startsFrom.length > 0 ? 2 : 1;
    order.forEach((id, k) => {
      const patch = patches.get(id);
      if (!patch || placed.has(id)) {
        faults.push(phrase('{id} does not stand exactly once in the plan.', { id }));
        return;
      }
      if (patch.section !== letter || patch.position !== first + k || id !== `${letter}${first + k}`)
        faults.push(phrase('{id} is not called by its place.', { id }));
      const contact = contactBetween(boundary, [id], (other) => earlier.has(other)).map(({ edge }) => edge);
      if (earlier.size === 0) {
        if (patch.seam !== null) faults.push(phrase('{id} is laid, not sewn, and has a seam.', { id }));
      } else if (!isOneStretch(contact))
        faults.push(phrase('{id} does not meet the patches before it along one straight line.', { id }));
      else if (patch.seam === null || !isSameStretch(patch.seam, spanOf(contact)))
        faults.push(phrase('{id} does not meet the patches before it along its seam.', { id }));
      earlier.add(id);
      placed.add(id);
    });
  });
  if (placed.size !== plan.patches.length) faults.push(phrase('A patch stands on no foundation.'));
  return faults;
}
