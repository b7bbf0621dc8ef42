import { STRAIGHT_IN } from '../geometry/lattice.ts';
import type { Segment } from '../geometry/point.ts';
import { distance } from '../geometry/ring.ts';
import type { Join, PiecingPlan } from './plan.ts';

/** What a plan asks of its maker, in numbers by which plans are compared. Lengths in inches. */
export interface PlanMeasure {
  readonly foundations: number;
  readonly joins: number;
  /** Corners that set-in joins turn, each a place to stop, clip and turn. */
  readonly setInCorners: number;
  /** Spots on joins where seams from both sides must meet. */
  readonly matchPoints: number;
  /** Spots on joins where a seam from one side or both meets it. */
  readonly meetings: number;
  readonly longestJoin: number;
  /** Joins that run neither level nor upright: their edges lie on the bias and stretch. */
  readonly biasJoins: number;
  readonly biasLength: number;
}

/** Corners that set-in joins turn: one between each stretch and the next, and one more where a seam closes on itself. */
export const setInCornersOf = (joins: readonly Pick<Join, 'kind' | 'seam' | 'stretches'>[]): number =>
  joins.reduce((sum, { kind, seam: [from, to], stretches }) => {
    if (kind !== 'set-in') return sum;
    return sum + stretches.length - (from[0] === to[0] && from[1] === to[1] ? 0 : 1);
  }, 0);

export function measurePlan(plan: PiecingPlan): PlanMeasure {
  const lengths = plan.joins.map(({ stretches }) => stretches.reduce((sum, s) => sum + distance(...s), 0));
  const points = plan.joins.flatMap((join) => join.points);
  const bias = plan.joins.flatMap((join) => join.stretches).filter(isOnBias);
  const matchPoints = points.filter(({ kind }) => kind === 'match').length;
  return {
    foundations: plan.sections.length,
    joins: plan.joins.length,
    setInCorners: setInCornersOf(plan.joins),
    matchPoints,
    meetings: matchPoints + points.filter(({ kind }) => kind === 'junction').length,
    longestJoin: Math.max(0, ...lengths),
    biasJoins: plan.joins.filter((join) => join.stretches.some(isOnBias)).length,
    biasLength: bias.reduce((sum, s) => sum + distance(...s), 0),
  };
}

/**
 * Does a stretch run off the straight grain, when cloth lies with its grain along the block's sides? Common
 * practice: straight grain along the outer edge of a block.
 */
export const isOnBias = ([a, b]: Segment): boolean =>
  Math.abs(a[0] - b[0]) > STRAIGHT_IN && Math.abs(a[1] - b[1]) > STRAIGHT_IN;
