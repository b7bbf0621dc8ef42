import { STRAIGHT_IN } from '../../geometry/lattice.ts';
import { distance } from '../../geometry/ring.ts';
import type { PiecingPlan } from '../../piecing/plan.ts';
import { joiningSides } from './mates.ts';

/** Registration ticks side by side at each point of a join. */
export type TickCount = 1 | 2 | 3;

const COUNTS: readonly TickCount[] = [1, 2, 3];

/** What it costs that two joins alike share a corner of a paper, or a paper at all. */
const COST = { corner: 100, paper: 1 };

/** Choices tried before joins that share a corner are left alike; far more than any block that is sewn has needed. */
const MOST_TRIES = 20_000;

type Counts = Map<number, TickCount>;

/** For each join, by its step, what it costs to be like each other one. */
type Near = ReadonlyMap<number, Map<number, number>>;

/**
 * How many ticks mark the points of each join, by its step: single, double, and where two kinds will not do, triple,
 * so that joins that share a corner of a paper differ, and joins on one paper wherever they can. One count a join, so
 * both mates show the same. Where three kinds are not enough for all corners, as few as can be are alike.
 */
export function tickCounts(plan: PiecingPlan): ReadonlyMap<number, TickCount> {
  const near = nearness(plan);
  return differing(near, 2) ?? differing(near, 3) ?? fewestAlike(near);
}

function nearness(plan: PiecingPlan): Near {
  const near: Near = new Map(plan.joins.map(({ step }) => [step, new Map<number, number>()]));
  const meet = (a: number, b: number, cost: number): void => {
    if (a !== b) near.get(a)!.set(b, Math.max(cost, near.get(a)!.get(b) ?? 0));
  };
  for (const section of plan.sections) {
    const sides = joiningSides(plan, section).flatMap(({ join, side }) =>
      join ? [{ step: join.step, side }] : [],
    );
    for (const one of sides)
      for (const other of sides) {
        const isCorner = one.side.some((p) => other.side.some((q) => distance(p, q) <= STRAIGHT_IN));
        meet(one.step, other.step, isCorner ? COST.corner : COST.paper);
      }
  }
  return near;
}

/** What it would cost a join to have each count, beside those that have one. */
const costsOf = (near: Near, step: number, counts: Counts, kinds: number): readonly number[] =>
  COUNTS.slice(0, kinds).map((count) =>
    [...near.get(step)!].reduce((sum, [other, cost]) => sum + (counts.get(other) === count ? cost : 0), 0),
  );

/**
 * Counts of so many kinds with which no two joins at a corner are alike; null where there are none. The join with the
 * fewest kinds left goes first (Brélaz 1979), and a choice that leads nowhere is taken back.
 */
function differing(near: Near, kinds: number): Counts | null {
  const counts: Counts = new Map();
  let tries = 0;
  const settle = (): boolean => {
    if (counts.size === near.size) return true;
    if (++tries > MOST_TRIES) return false;
    let next: { step: number; free: readonly TickCount[]; corners: number } | null = null;
    for (const [step, others] of near) {
      if (counts.has(step)) continue;
      const costs = costsOf(near, step, counts, kinds);
      const free = COUNTS.filter((_, i) => (costs[i] ?? COST.corner) < COST.corner).sort(
        (a, b) => costs[a - 1]! - costs[b - 1]! || a - b,
      );
      const corners = [...others.values()].filter((cost) => cost === COST.corner).length;
      if (
        !next ||
        free.length < next.free.length ||
        (free.length === next.free.length && corners > next.corners)
      )
        next = { step, free, corners };
    }
    for (const count of next!.free) {
      counts.set(next!.step, count);
      if (settle()) return true;
      counts.delete(next!.step);
    }
    return false;
  };
  return settle() ? counts : null;
}

/** One by one the cheapest, and then over again while that helps. */
function fewestAlike(near: Near): Counts {
  const counts: Counts = new Map();
  for (let round = 0; round < 6; round++)
    for (const step of near.keys()) {
      counts.delete(step);
      const costs = costsOf(near, step, counts, 3);
      counts.set(step, COUNTS[costs.indexOf(Math.min(...costs))]!);
    }
  return counts;
}
