import type { Point, Ring, Segment } from '../geometry/point.ts';
import { headed } from './pattern.ts';
import type { Edge, Join, Patch, PiecingPlan, Section } from './plan.ts';
import { stampOf } from './stamp.ts';

/**
 * The plan of a block turned over, left for right, from its own: the same letters, numbers, orders and joins, so that
 * whoever sews both reads one and the same thing. Every x becomes `sum` - x: `sum` is the least and the greatest x of
 * the outline together. Stamps are of the mirrored shapes: those are other papers.
 */
export function mirrorPlan(plan: PiecingPlan, sum: number): PiecingPlan {
  // What is one point stays one point: edges and polygons share theirs.
  const images = new Map<Point, Point>();
  const at = (point: Point): Point => {
    const image = images.get(point) ?? [sum - point[0], point[1]];
    images.set(point, image);
    return image;
  };
  const ring = (points: Ring): Ring => points.map(at).toReversed();
  const span = ([a, b]: Segment): Segment => headed(at(a), at(b));
  const patches = plan.patches.map(
    (patch): Patch => ({
      ...patch,
      polygon: ring(patch.polygon),
      holes: patch.holes.map(ring),
      seam: patch.seam && span(patch.seam),
    }),
  );
  const patchOf = new Map(patches.map((patch) => [patch.id, patch]));
  return {
    ...plan,
    patches,
    sections: plan.sections.map((section): Section => {
      const outline = ring(section.outline);
      const holes = section.holes.map(ring);
      const whole = section.startsFrom.length > 0 ? [outline, ...holes] : [];
      const stamp = stampOf(
        section.order.map((id) => patchOf.get(id)!),
        whole,
      );
      return { ...section, outline, holes, stamp };
    }),
    joins: plan.joins.map(
      (join): Join => ({
        ...join,
        seam: [at(join.seam[0]), at(join.seam[1])],
        stretches: join.stretches.map(([a, b]): Segment => [at(a), at(b)]),
        points: join.points.map((point) => ({ ...point, at: at(point.at) })),
        ...(join.finishes && {
          finishes: { ...join.finishes, rest: [at(join.finishes.rest[0]), at(join.finishes.rest[1])] },
        }),
        ...(join.leftOpen && { leftOpen: { ...join.leftOpen, at: at(join.leftOpen.at) } }),
      }),
    ),
    edges: plan.edges
      .map(({ from, to, right, left, line }) => edgeOver(at(from), at(to), right, left, line))
      .sort(asRead),
    findings: plan.findings.map((finding) => ({
      ...finding,
      at: at(finding.at),
      stretches: finding.stretches.map(([a, b]): Segment => [at(a), at(b)]),
    })),
  };
}

/** An edge that has been mirrored: what was on its right is on its left, unless it has to be walked the other way. */
function edgeOver(
  from: Point,
  to: Point,
  right: Edge['right'],
  left: Edge['left'],
  line: Edge['line'],
): Edge {
  return headed(from, to)[0] === from
    ? { from, to, right: left, left: right, line }
    : { from: to, to: from, right, left, line };
}

const asRead = (a: Edge, b: Edge): number =>
  a.from[1] - b.from[1] || a.from[0] - b.from[0] || a.to[1] - b.to[1] || a.to[0] - b.to[0];
