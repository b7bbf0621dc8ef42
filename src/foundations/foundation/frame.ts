import type { Point, Ring, Segment } from '../../geometry/point.ts';
import { boxOf } from '../../geometry/ring.ts';
import type { PiecingPlan, Section } from '../../piecing/plan.ts';
import type { SheetShape } from '../sheet/filling.ts';
import type { Side } from '../side.ts';
import { holeTrimLine, trimLine } from './allowance.ts';

/** Half the length of an arm of a registration cross, inches. */
export const CROSS_IN = 0.045;

/** Where a section lies on its paper. Rings turn as the section's do; inches from the paper's upper left corner. */
export interface Frame {
  readonly width: number;
  readonly height: number;
  readonly toPaper: (point: Point) => Point;
  readonly outline: Ring;
  readonly holes: readonly Ring[];
  /** The trim line, then those in holes wide enough to have one. */
  readonly trims: readonly Ring[];
}

export function frameOf(section: Section, allowance: number, side: Side): Frame {
  // The one place where a drawing is mirrored.
  const turnedOver = ([x, y]: Point): Point => (side === 'printed' ? [-x, y] : [x, y]);
  const ringOver = (ring: Ring, place: (point: Point) => Point): Ring => {
    const placed = ring.map(place);
    return side === 'printed' ? placed.reverse() : placed;
  };
  const trims: readonly Ring[] = [
    trimLine(ringOver(section.outline, turnedOver), allowance),
    ...section.holes
      .map((hole) => holeTrimLine(ringOver(hole, turnedOver), allowance))
      .filter((ring) => ring !== null),
  ];
  // Registration crosses at the corners reach beyond a very narrow allowance.
  const rim = Math.max(0, CROSS_IN - allowance);
  const { minX, minY, maxX, maxY } = boxOf(trims[0]!);
  const shift = ([x, y]: Point): Point => [x - minX + rim, y - minY + rim];
  const toPaper = (point: Point): Point => shift(turnedOver(point));
  return {
    width: maxX - minX + 2 * rim,
    height: maxY - minY + 2 * rim,
    toPaper,
    outline: ringOver(section.outline, toPaper),
    holes: section.holes.map((hole) => ringOver(hole, toPaper)),
    trims: trims.map((ring) => ring.map(shift)),
  };
}

/** A section's paper without labels beyond its trim line: its size in inches, and its trim line on it. */
export function bareShape(section: Section, allowance: number, side: Side): SheetShape {
  const { width, height, trims } = frameOf(section, allowance, side);
  return { width, height, rings: [trims[0]!], isStraight: false };
}

/** The lines a section's paper is sewn along: between its patches, and its outline; inches on the paper. */
export function sewnLines(
  plan: PiecingPlan,
  section: Section,
  allowance: number,
  side: Side,
): readonly Segment[] {
  const frame = frameOf(section, allowance, side);
  const sides = [frame.outline, ...frame.holes].flatMap((ring) =>
    ring.map((a, i): Segment => [a, ring[(i + 1) % ring.length]!]),
  );
  return [
    ...edgesWithin(plan, [section.letter]).map(([a, b]): Segment => [frame.toPaper(a), frame.toPaper(b)]),
    ...sides,
  ];
}

/** Every edge with patches of the sections on both sides of it. */
export function edgesWithin({ edges, patches }: PiecingPlan, sections: readonly string[]): Segment[] {
  const own = new Set(patches.flatMap(({ id, section }) => (sections.includes(section) ? [id] : [])));
  const isOwn = (patch: string | null): boolean => patch !== null && own.has(patch);
  return edges.flatMap(({ from, to, left, right }): Segment[] =>
    isOwn(left) && isOwn(right) ? [[from, to]] : [],
  );
}
