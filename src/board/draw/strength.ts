import { signedArea } from '../../geometry/ring.ts';
import type { PiecingPlan } from '../../piecing/plan.ts';
import type { Camera } from '../camera.ts';

/**
 * How strongly a plan's marks are drawn, 1 the usual: where patches are small on the screen, threads get thinner and
 * pins fewer, so that the picture is seen. In a few steps, so that marks stay the same while a line is moved.
 */
export type Strength = 1 | 0.75 | 0.5 | 0.25;

/** Side of a typical patch on the screen from which each strength is used, CSS pixels. */
const FROM_PX: readonly (readonly [Strength, number])[] = [
  [1, 60],
  [0.75, 44],
  [0.5, 30],
];

const typical = new WeakMap<PiecingPlan, number>();

export function strengthOf(plan: PiecingPlan, { scale }: Camera): Strength {
  const side = typical.get(plan) ?? typicalSide(plan);
  typical.set(plan, side);
  return FROM_PX.find(([, leastPx]) => side * scale >= leastPx)?.[0] ?? 0.25;
}

/** The side of a square of the patches' mean size, inches. */
function typicalSide({ sections, patches }: PiecingPlan): number {
  const area = sections.reduce((sum, { outline }) => sum + Math.abs(signedArea(outline)), 0);
  return Math.sqrt(area / Math.max(1, patches.length));
}
