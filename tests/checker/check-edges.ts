import type { Point, Segment } from '../../src/geometry/point.ts';
import type { Block } from '../../src/piecing/block.ts';
import type { Edge, Patch, PiecingPlan } from '../../src/piecing/plan.ts';
import { along, distanceFromLine, edgesOf, lengthOf, TENTH_MM_IN } from './shared-boundary.ts';

const text = ([a, b]: Segment): string => [...a, ...b].map((v) => v.toFixed(4)).join(' ');

const isHeaded = ([a, b]: Segment): boolean => a[0] < b[0] || (a[0] === b[0] && a[1] <= b[1]);

function liesOn(p: Point, a: Point, b: Point): boolean {
  const t = along(p, a, b);
  return t >= -TENTH_MM_IN && t <= lengthOf([a, b]) + TENTH_MM_IN && distanceFromLine(p, a, b) <= TENTH_MM_IN;
}

/**
 * The edges a plan should tell, from the polygons of its patches and the lines of the block alone: each edge of a
 * polygon has its patch on the right, front view, y down.
 */
export function edgesFrom(block: Block, patches: readonly Patch[]): Edge[] {
  const right = new Map<string, { edge: Segment; patch: string }>();
  for (const patch of patches)
    for (const edge of edgesOf(patch)) right.set(String(edge), { edge, patch: patch.id });
  const edges: Edge[] = [];
  for (const { edge, patch } of right.values()) {
    const [from, to] = edge;
    const other = right.get(String([to, from]))?.patch ?? null;
    if (other !== null && !isHeaded(edge)) continue;
    const cut = block.cuts.find((one) => liesOn(from, one.from, one.to) && liesOn(to, one.from, one.to));
    const line = other === null ? null : (cut?.id ?? null);
    edges.push(
      isHeaded(edge)
        ? { from, to, right: patch, left: other, line }
        : { from: to, to: from, right: other, left: patch, line },
    );
  }
  return edges.sort(
    (p, q) => p.from[1] - q.from[1] || p.from[0] - q.from[0] || p.to[1] - q.to[1] || p.to[0] - q.to[0],
  );
}

/** Faults of the edges a plan tells: one missing, too many, with other patches beside it, or not on its line. */
export function checkTopology(block: Block, plan: PiecingPlan): string[] {
  const faults: string[] = [];
  const sides = ({ from, to, right, left }: Edge): string =>
    `${text([from, to])} between ${right} and ${left}`;
  const real = edgesFrom(block, plan.patches).map(sides);
  const told = plan.edges.map(sides);
  const missing = real.filter((edge) => !told.includes(edge));
  const invented = told.filter((edge) => !real.includes(edge));
  if (missing.length > 0) faults.push(`the edge ${missing[0]} is not told`);
  if (invented.length > 0) faults.push(`the edge ${invented[0]} is told, and is none`);
  if (missing.length + invented.length === 0 && real.join() !== told.join())
    faults.push('edges are told twice or out of turn');
  const rim = edgesOf({ polygon: block.outline, holes: [] });
  const cuts = new Map(block.cuts.map((cut) => [cut.id, cut]));
  for (const { from, to, right, left, line } of plan.edges) {
    if (line === null) {
      // Where lines all but meet, a sliver may lie between the outline as drawn and as it runs from corner to corner.
      const isOnRim = rim.some(([a, b]) => liesOn(from, a, b) && liesOn(to, a, b));
      if (right !== null && left !== null && !isOnRim)
        faults.push(`the edge ${text([from, to])} lies on no cut`);
      continue;
    }
    const cut = cuts.get(line);
    if (!cut || !liesOn(from, cut.from, cut.to) || !liesOn(to, cut.from, cut.to))
      faults.push(`the edge ${text([from, to])} does not lie on cut ${line}`);
  }
  return faults;
}
