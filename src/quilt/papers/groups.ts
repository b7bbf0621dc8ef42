import type { Joining } from '../../document/quilt.ts';
import type { Join } from '../../piecing/plan.ts';

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
 */
export function groupsOf(steps: readonly Join[], way: Joining): StepGroup[] {
  const madeBy = new Map<string, number>();
  steps.forEach((step, k) => {
    madeBy.set(keyOf([...step.left, ...step.right]), k);
  });
  const isRow = (root: number): boolean => {
    const step = steps[root]!;
    const size = step.left.length + step.right.length;
    if (way === 'balanced') return size <= MOST_ON_A_PAGE;
    return size <= MOST_IN_A_ROW && within(root).every((k) => leanOf(steps[k]!) !== leanOf(steps.at(-1)!));
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
  if (steps.length === 0) return [];
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

/** Level, upright, rising or falling. */
function leanOf({ seam: [[x1, y1], [x2, y2]] }: Join): string {
  if (Math.abs(y1 - y2) < 1e-3) return 'level';
  if (Math.abs(x1 - x2) < 1e-3) return 'upright';
  return (y2 - y1) * (x2 - x1) > 0 ? 'falling' : 'rising';
}
