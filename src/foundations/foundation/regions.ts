import type { Point, Ring } from '../../geometry/point.ts';
import { pointNumbers } from '../../geometry/point-numbers.ts';
import { signedArea } from '../../geometry/ring.ts';
import type { Patch, PiecingPlan } from '../../piecing/plan.ts';

/**
 * The outer boundaries of what some patches of a plan cover together: its edges that have one of them on one side alone,
 * chained. Positive shoelace area, the largest first; islands are left out.
 */
export function boundariesOf(
  { edges }: Pick<PiecingPlan, 'edges'>,
  patches: readonly Pick<Patch, 'id'>[],
): readonly Ring[] {
  const inside = new Set<string | null>(patches.map(({ id }) => id));
  const { numberOf } = pointNumbers();
  // Each as it runs round what lies on its right.
  const from = new Map<number, [Point, Point][]>();
  for (const edge of edges) {
    const isRight = inside.has(edge.right);
    if (isRight === inside.has(edge.left)) continue;
    const [start, end] = isRight ? [edge.from, edge.to] : [edge.to, edge.from];
    const before = from.get(numberOf(start));
    if (before) before.push([start, end]);
    else from.set(numberOf(start), [[start, end]]);
  }
  const rings: Point[][] = [];
  for (const starts of from.values()) {
    while (starts.length > 0) {
      const ring: Point[] = [];
      let next = starts.pop();
      while (next) {
        ring.push(next[0]);
        next = from.get(numberOf(next[1]))?.pop();
      }
      rings.push(ring);
    }
  }
  return rings.filter((ring) => signedArea(ring) > 0).sort((a, b) => signedArea(b) - signedArea(a));
}
