import type { Point, Ring } from '../../src/geometry/point.ts';
import type { Block } from '../../src/piecing/block.ts';
import type { Patch, PiecingPlan } from '../../src/piecing/plan.ts';
import { checkPlan } from './check-plan.ts';
import { distanceFromBoundary, insideShape, pointInside, shapeArea, TENTH_MM_IN } from './shared-boundary.ts';

/**
 * The independent check of a mended block: every new patch lies inside one old patch of the same fabric, the patches in
 * each old one fill it, every join is straight, and the plan passes its own check. Result: a sentence for each fault.
 */
export function checkMend(before: PiecingPlan, mended: Block, after: PiecingPlan): string[] {
  const faults = checkPlan(mended, after);
  if (after.joins.some(({ kind }) => kind !== 'straight')) faults.push('a join is not straight');
  if (after.verdict !== 'one-foundation' && after.verdict !== 'several-foundations')
    faults.push(`the verdict is ${after.verdict}`);
  const filled = new Map<Patch, number>();
  for (const patch of after.patches) {
    const spot = pointInside(patch);
    const host = before.patches.find((old) => insideShape(spot, old));
    if (!host) {
      faults.push(`${patch.id} lies in no old patch`);
      continue;
    }
    if (host.fabric !== patch.fabric)
      faults.push(`${patch.id} is of ${patch.fabric}, it was of ${host.fabric}`);
    const isOut = (p: Point): boolean => !insideShape(p, host) && distanceFromBoundary(p, host) > TENTH_MM_IN;
    const rings: readonly Ring[] = [patch.polygon, ...patch.holes];
    if (rings.some((ring) => ring.some(isOut))) faults.push(`${patch.id} reaches out of the old ${host.id}`);
    filled.set(host, (filled.get(host) ?? 0) + shapeArea(patch));
  }
  for (const old of before.patches) {
    const rim = old.polygon.reduce((sum, p, k) => {
      const q = old.polygon[(k + 1) % old.polygon.length]!;
      return sum + Math.hypot(q[0] - p[0], q[1] - p[1]);
    }, 0);
    const gap = Math.abs((filled.get(old) ?? 0) - shapeArea(old));
    if (gap > TENTH_MM_IN * rim)
      faults.push(`the old ${old.id} is filled ${gap} sq in too much or too little`);
  }
  return faults;
}
