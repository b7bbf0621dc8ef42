import type { Point } from '../../geometry/point.ts';
import { distance } from '../../geometry/ring.ts';
import type { Patch } from '../../piecing/plan.ts';
import { corners } from '../foundation/allowance.ts';
import type { BlockWork, FabricWork } from './block-work.ts';

/** A shape to cut, and all the patches that have it. */
export interface Template {
  /** As the finished front shows it, without allowance, where the first of its patches lies. */
  readonly patch: Patch;
  /** Ids of patches that are this shape, turned by quarters or not at all; never its mirror image. */
  readonly patches: readonly string[];
  readonly fabric: FabricWork | null;
}

/** Corners closer than this count as the same: 1/250 in, about a tenth of a millimetre. */
export const SAME_IN = 1 / 250;

/**
 * The templates of a block: patches of one shape and one fabric share one. Turned by quarters counts as the same,
 * since the straight grain then still runs along the sides of the block; a mirror image does not.
 */
export function templatesOf({ plan, fabrics }: BlockWork): readonly Template[] {
  const found: { patch: Patch; patches: string[]; fabric: FabricWork | null }[] = [];
  for (const patch of plan.patches) {
    const same = found.find((one) => one.patch.fabric === patch.fabric && hasSameShape(one.patch, patch));
    if (same) same.patches.push(patch.id);
    else
      found.push({
        patch,
        patches: [patch.id],
        fabric: fabrics.find(({ id }) => id === patch.fabric) ?? null,
      });
  }
  return found;
}

function hasSameShape(a: Patch, b: Patch): boolean {
  if (a.holes.length > 0 || b.holes.length > 0) return false;
  const [p, q] = [corners(a.polygon), corners(b.polygon)];
  if (p.length !== q.length) return false;
  const turns: readonly ((point: Point) => Point)[] = [
    ([x, y]) => [x, y],
    ([x, y]) => [-y, x],
    ([x, y]) => [-x, -y],
    ([x, y]) => [y, -x],
  ];
  return turns.some((turn) => {
    const turned = q.map(turn);
    return turned.some((_, k) => {
      const dx = p[0]![0] - turned[k]![0];
      const dy = p[0]![1] - turned[k]![1];
      return p.every((corner, i) => {
        const [x, y] = turned[(i + k) % turned.length]!;
        return distance(corner, [x + dx, y + dy]) <= SAME_IN;
      });
    });
  });
}
