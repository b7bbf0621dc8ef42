import type { Point, Ring } from '../../geometry/point.ts';
import { pointNumbers } from '../../geometry/point-numbers.ts';
import { signedArea } from '../../geometry/ring.ts';
import type { Patch } from '../../piecing/plan.ts';

/**
 * The outer boundaries of what some patches cover together: their edges that no two of them share, chained.
 * Patches share vertices exactly (see `Patch`). Positive shoelace area, the largest first; islands are left out.
 */
export function boundariesOf(patches: readonly Patch[]): readonly Ring[] {
  const edges = patches.flatMap(({ polygon, holes }) =>
    [polygon, ...holes].flatMap((ring) =>
      ring.map((a, i): [Point, Point] => [a, ring[(i + 1) % ring.length]!]),
    ),
  );
  const { numberOf } = pointNumbers();
  const name = (a: Point, b: Point): number => numberOf(a) * (edges.length + 1) + numberOf(b);
  const all = new Set(edges.map(([a, b]) => name(a, b)));
  const from = new Map<number, [Point, Point][]>();
  for (const edge of edges) {
    if (all.has(name(edge[1], edge[0]))) continue;
    const start = numberOf(edge[0]);
    const before = from.get(start);
    if (before) before.push(edge);
    else from.set(start, [edge]);
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
