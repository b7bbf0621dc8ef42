import type { Point } from '../../geometry/point.ts';
import { distance } from '../../geometry/ring.ts';
import type { Patch, PiecingPlan, Section } from '../../piecing/plan.ts';
import { phrase } from '../../words/phrase.ts';
import type { Frame } from './frame.ts';
import type { FabricLabel, LaidPatch } from './label-request.ts';
import { boundariesOf } from './regions.ts';

/** The direction of a patch's longest edge on the outside of the block, as a vector on the front; null for none. */
export function blockEdges(plan: PiecingPlan): (patch: Patch) => Point | null {
  // As they run round a patch, which lies on their right.
  const name = (a: Point, b: Point): string => `${a} ${b}`;
  const outside = new Set(
    plan.edges.flatMap(({ from, to, left, right }) =>
      left === null ? [name(from, to)] : right === null ? [name(to, from)] : [],
    ),
  );
  return (patch) => {
    const outer = edgesOf(patch).filter(([a, b]) => outside.has(name(a, b)));
    const [longest] = outer.sort((a, b) => distance(...b) - distance(...a));
    return longest ? [longest[1][0] - longest[0][0], longest[1][1] - longest[0][1]] : null;
  };
}

const edgesOf = ({ polygon, holes }: Patch): [Point, Point][] =>
  [polygon, ...holes].flatMap((ring) =>
    ring.map((a, i): [Point, Point] => [a, ring[(i + 1) % ring.length]!]),
  );

export function laidPatch(
  patch: Patch,
  fabrics: ReadonlyMap<string, FabricLabel>,
  edge: Point | null,
  { toPaper }: Frame,
): LaidPatch {
  const fabric = patch.fabric === null ? undefined : fabrics.get(patch.fabric);
  return {
    id: patch.id,
    area: { polygon: patch.polygon.map(toPaper), holes: patch.holes.map((hole) => hole.map(toPaper)) },
    fabric: fabric ?? null,
    fabricId: fabric ? patch.fabric : null,
    grain: edge && vector(toPaper([0, 0]), toPaper(edge)),
    isFirst: patch.position === 1,
  };
}

const vector = (a: Point, b: Point): Point => [b[0] - a[0], b[1] - a[1]];

/** The finished unit at position 1, where the paper starts from one. */
export function laidUnit(
  plan: PiecingPlan,
  { letter, startsFrom }: Section,
  unit: readonly Patch[],
  { toPaper }: Frame,
): LaidPatch[] {
  const [ring] = boundariesOf(plan, unit);
  if (!ring) return [];
  const code = startsFrom.join('');
  return [
    {
      id: `${letter}1`,
      area: { polygon: ring.map(toPaper), holes: [] },
      fabric: {
        name: phrase('unit {startsFrom}', { startsFrom: startsFrom.join(', ') }),
        code,
        meaning: code,
        look: null,
      },
      fabricId: null,
      grain: null,
      isFirst: true,
    },
  ];
}
