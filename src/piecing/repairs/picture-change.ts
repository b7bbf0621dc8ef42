import type { Area } from '../../geometry/inner-spot.ts';
import { TOUCH_IN } from '../../geometry/lattice.ts';
import { overlapArea } from '../../geometry/overlap.ts';
import { boxOf, signedArea } from '../../geometry/ring.ts';
import type { PiecingPlan } from '../plan.ts';

/** How much of the picture a change alters. */
export interface PictureChange {
  /** Of the block's area, 0 … 1. */
  readonly share: number;
  /** Where: what an old patch and a new one have in common. */
  readonly places: readonly (readonly [old: Area, new_: Area])[];
}

/**
 * What a change does to the picture: each new patch takes the fabric of the old one it overlaps most, and all that it takes
 * from others of another fabric is altered. Patches without a fabric count as different from each other. Cost: O(patches
 * before × after) looks at boxes.
 */
export function pictureChange(before: PiecingPlan, after: PiecingPlan): PictureChange {
  const old = before.patches.map((patch) => ({
    patch,
    look: patch.fabric ?? `patch ${patch.id}`,
    box: boxOf(patch.polygon),
    name: nameOf(patch),
  }));
  const unchanged = new Set(old.map(({ name }) => name));
  const total = old.reduce((sum, { patch }) => sum + areaOf(patch), 0);
  const places: [Area, Area][] = [];
  let altered = 0;
  for (const patch of after.patches) {
    if (unchanged.has(nameOf(patch))) continue;
    const box = boxOf(patch.polygon);
    const shares = old
      .filter(
        ({ box: other }) =>
          other.minX < box.maxX && other.maxX > box.minX && other.minY < box.maxY && other.maxY > box.minY,
      )
      .map((one) => ({ ...one, area: overlapArea(one.patch, patch) }));
    const heir = shares.reduce((most, one) => (one.area > most.area ? one : most), shares[0]!);
    for (const { patch: was, look, area } of shares) {
      // Ends that move by less than a touch alter nothing.
      if (look === heir.look || area <= TOUCH_IN * 2 * (box.maxX - box.minX + box.maxY - box.minY)) continue;
      altered += area;
      places.push([
        { polygon: was.polygon, holes: was.holes },
        { polygon: patch.polygon, holes: patch.holes },
      ]);
    }
  }
  return { share: altered / total, places };
}

const areaOf = ({ polygon, holes }: Area): number =>
  [polygon, ...holes].reduce((sum, ring) => sum + signedArea(ring), 0);

const nameOf = ({ polygon, holes }: Area): string =>
  [...polygon, ...holes.flat()]
    .map(([x, y]) => `${x} ${y}`)
    .sort()
    .join();
