import { isOneStretch } from '../../geometry/one-stretch.ts';
import { phrase } from '../../words/phrase.ts';
import { letters } from '../ids.ts';
import type { SewingPlan } from '../plan.ts';
import { addContact, type Boundary } from './boundary.ts';
import { isSameStretch, spanOf } from './stretch.ts';

/**
 * The rule itself: for every position after the first, all the boundary the patch shares with earlier ones is one
 * straight, unbroken stretch, and that is its seam. Each patch has its place, and is called by it.
 */
export function orderFaults({ patches, sections }: SewingPlan, boundary: Boundary): string[] {
  const faults: string[] = [];
  const isPlaced = new Uint8Array(patches.length);
  /** Where each patch lies that is there already: the number of the last section it was there for, from 1. */
  const thereFor = new Int32Array(patches.length);
  let placed = 0;
  for (let s = 0; s < sections.length; s++) {
    const { letter, startsFrom, order } = sections[s]!;
    if (letter !== letters(s)) faults.push(phrase('Section {letter} has the wrong letter.', { letter }));
    let earlier = 0;
    if (startsFrom.length > 0) {
      for (let p = 0; p < patches.length; p++)
        if (startsFrom.includes(patches[p]!.section)) {
          thereFor[p] = s + 1;
          earlier++;
        }
      if (earlier === 0)
        faults.push(phrase('Section {letter} starts from a unit that is not there.', { letter }));
    }
    const isEarlier = (p: number): boolean => thereFor[p] === s + 1;
    const first = startsFrom.length > 0 ? 2 : 1;
    for (let k = 0; k < order.length; k++) {
      const id = order[k]!;
      const p = boundary.numberOfPatch.get(id) ?? -1;
      if (p < 0 || isPlaced[p] === 1) {
        faults.push(phrase('{id} does not stand exactly once in the plan.', { id }));
        continue;
      }
      const patch = patches[p]!;
      if (patch.section !== letter || patch.position !== first + k || id !== `${letter}${first + k}`)
        faults.push(phrase('{id} is not called by its place.', { id }));
      if (earlier === 0) {
        if (patch.seam !== null) faults.push(phrase('{id} is laid, not sewn, and has a seam.', { id }));
      } else {
        const sides: number[] = [];
        addContact(boundary, p, isEarlier, sides);
        const contact = sides.map((side) => boundary.edges[side]!);
        if (!isOneStretch(contact))
          faults.push(phrase('{id} does not meet the patches before it along one straight line.', { id }));
        else if (patch.seam === null || !isSameStretch(patch.seam, spanOf(contact)))
          faults.push(phrase('{id} does not meet the patches before it along its seam.', { id }));
      }
      thereFor[p] = s + 1;
      earlier++;
      isPlaced[p] = 1;
      placed++;
    }
  }
  if (placed !== patches.length) faults.push(phrase('A patch stands on no foundation.'));
  return faults;
}
