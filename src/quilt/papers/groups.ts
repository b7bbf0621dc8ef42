import type { Joining } from '../../document/quilt.ts';
import type { Point } from '../../geometry/point.ts';
import { distance } from '../../geometry/ring.ts';
import type { Join } from '../../piecing/plan.ts';
import type { Layout } from '../layout.ts';

/** Steps that stand on one page of the guide. */
export interface StepGroup {
  readonly steps: readonly Join[];
  /** The page that joins what the others made. */
  readonly isLast: boolean;
}

/** More places than this in a unit are not told on one page. */
const MOST_ON_A_PAGE = 12;
const MOST_IN_A_ROW = 40;

/**
 * The steps of a joining plan page by page: in rows, or columns, a page a row; else a page a unit of up to twelve places.
 * The last page joins what the others made. A group holds all the steps of its unit, in their order.
 *
 * A row is what is made last by a seam across the way the rows are joined; seams along it may join what lies stacked
 * in the row, but none reaches over half of it.
 */
export function groupsOf(steps: readonly Join[], way: Joining, layout: Layout): StepGroup[] {
  const last = steps.at(-1);
  if (!last) return [];
  const madeBy = new Map<string, number>();
  steps.forEach((step, k) => {
    madeBy.set(keyOf([...step.left, ...step.right]), k);
  });
  const polygons = new Map(layout.pieces.map(({ place, polygon }) => [place.id, polygon]));
  const along = directionOf(last);
  const spanOf = (ids: readonly string[]): number => {
    const at = ids.flatMap((id) => polygons.get(id)!.map(([x, y]) => x * along[0] + y * along[1]));
    return (
      at.reduce((most, t) => Math.max(most, t), -Infinity) -
      at.reduce((least, t) => Math.min(least, t), Infinity)
    );
  };
  const isAlong = (step: Join): boolean => {
    const [dx, dy] = directionOf(step);
    return Math.abs(dx * along[1] - dy * along[0]) < 1e-3;
  };
  const isRow = (root: number): boolean => {
    const step = steps[root]!;
    const ids = [...step.left, ...step.right];
    if (way === 'balanced') return ids.length <= MOST_ON_A_PAGE;
    if (ids.length > MOST_IN_A_ROW || isAlong(step)) return false;
    const half = spanOf(ids) / 2;
    return within(root).every((k) => !isAlong(steps[k]!) || distance(...steps[k]!.seam) < half);
  };
  const within = (root: number): number[] => {
    const { left, right } = steps[root]!;
    return [...[left, right].flatMap((unit) => made(unit).flatMap(within)), root];
  };
  const made = (unit: readonly string[]): number[] => {
    const k = unit.length > 1 ? madeBy.get(keyOf(unit)) : undefined;
    return k === undefined ? [] : [k];
  };
  const roots: number[] = [];
  const walk = (root: number): void => {
    if (isRow(root)) roots.push(root);
    else for (const unit of [steps[root]!.left, steps[root]!.right]) for (const k of made(unit)) walk(k);
  };
  walk(steps.length - 1);
  const groups = roots.map(
    (root): StepGroup => ({
      steps: within(root)
        .sort((a, b) => a - b)
        .map((k) => steps[k]!),
      isLast: false,
    }),
  );
  const told = new Set(groups.flatMap((group) => group.steps));
  const rest = steps.filter((step) => !told.has(step));
  if (rest.length === 0) return groups.map((group, k) => ({ ...group, isLast: k === groups.length - 1 }));
  return [...groups, { steps: rest, isLast: true }];
}

const keyOf = (ids: readonly string[]): string => `${ids.length} ${ids[0]} ${ids.at(-1)}`;

/** Which way a seam runs, of length 1. */
function directionOf({ seam: [[x1, y1], [x2, y2]] }: Join): Point {
  const length = distance([x1, y1], [x2, y2]);
  return [(x2 - x1) / length, (y2 - y1) / length];
}
