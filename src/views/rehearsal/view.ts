import type { Point, Ring, Segment } from '../../geometry/point.ts';
import { type Box, boxOf, distance } from '../../geometry/ring.ts';
import type { Patch, PiecingPlan } from '../../piecing/plan.ts';
import type { Side } from './rehearsal-state.ts';

/** How inches of a block become CSS pixels of a picture; from the printed side, mirrored left to right. */
export interface View {
  readonly scale: number;
  readonly toPx: (at: Point) => Point;
}

/** The view that shows a box (inches) whole and centred in a picture, `margin` inches kept free around it. */
export function viewOf(box: Box, width: number, height: number, margin: number, side: Side): View {
  const across = box.maxX - box.minX + 2 * margin;
  const down = box.maxY - box.minY + 2 * margin;
  const scale = Math.max(1e-3, Math.min(width / across, height / down));
  const middleX = (box.minX + box.maxX) / 2;
  const middleY = (box.minY + box.maxY) / 2;
  const sign = side === 'printed' ? -1 : 1;
  return {
    scale,
    toPx: ([x, y]) => [width / 2 + sign * scale * (x - middleX), height / 2 + scale * (y - middleY)],
  };
}

const fixed = ([x, y]: Point): string => `${x.toFixed(2)} ${y.toFixed(2)}`;

/** The `d` of closed rings. */
export const ringsPath = ({ toPx }: View, rings: readonly Ring[]): string =>
  rings
    .filter((ring) => ring.length > 2)
    .map((ring) => `M${ring.map((at) => fixed(toPx(at))).join('L')}Z`)
    .join('');

export const patchPath = (view: View, { polygon, holes }: Pick<Patch, 'polygon' | 'holes'>): string =>
  ringsPath(view, [polygon, ...holes]);

/** The `d` of open stretches. */
export const stretchesPath = ({ toPx }: View, stretches: readonly Segment[]): string =>
  stretches.map(([a, b]) => `M${fixed(toPx(a))}L${fixed(toPx(b))}`).join('');

export const shifted = (at: Point, [x, y]: Point, by: number): Point => [at[0] + x * by, at[1] + y * by];

/** A stretch made longer at both ends. */
export function lengthened([a, b]: Segment, by: number): Segment {
  const length = distance(a, b) || 1;
  const along: Point = [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
  return [shifted(a, along, -by), shifted(b, along, by)];
}

/** Smallest upright box around all patches of a plan. */
export const planBox = ({ patches }: PiecingPlan): Box => boxOf(patches.flatMap(({ polygon }) => polygon));
