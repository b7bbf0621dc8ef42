import { boxOf, distance } from '../../geometry/ring.ts';
import type { Block } from '../../piecing/block.ts';
import type { PieceOptions } from '../../piecing/options.ts';
import { piece } from '../../piecing/piece.ts';
import type { PiecingPlan } from '../../piecing/plan.ts';
import { trimLine } from '../foundation/allowance.ts';
import { bareShape } from '../foundation/frame.ts';
import { fitsSheet, type Rectangle } from './level-packing.ts';

/** Cuts that would have to be joins so that no foundation is larger than a sheet, and what that leads to. */
export interface FittingJoins {
  /** Ids of cuts of the block, one to three. */
  readonly cuts: readonly string[];
  /** Foundations before and after. */
  readonly before: number;
  readonly after: number;
}

/** More cuts than this are not tried, the longest first; nor more than three joins together. */
const MOST_CUTS = 40;
const MOST_JOINS = 3;

/**
 * Which cuts to mark as joins so that every foundation fits on one sheet: each cut is tried with the whole of
 * `piece`, one at first, then others with the best. Null where all fit already, where up to three do not do it, or
 * where it would only do with set-in seams that the block does not have. `room` is what a sheet holds, either way up.
 * Inches. Cost: up to 120 plans, one where a patch alone is larger than a sheet.
 */
export function joinsThatFit(
  block: Block,
  room: Rectangle,
  allowance: number,
  options: PieceOptions = {},
): FittingJoins | null {
  const oversize = (plan: PiecingPlan): number =>
    plan.sections.reduce((sum, section) => {
      const { width, height } = bareShape(section, allowance, 'printed');
      return fitsSheet({ width, height }, room) ? sum : sum + width * height;
    }, 0);
  const start = piece(block, options);
  const bar = oversize(start);
  if (bar === 0 || start.verdict === 'broken') return null;
  // No join divides a patch.
  const isTooLarge = start.patches.some(({ polygon }) => {
    const { minX, minY, maxX, maxY } = boxOf(trimLine(polygon, allowance));
    return !fitsSheet({ width: maxX - minX, height: maxY - minY }, room);
  });
  if (isTooLarge) return null;
  const candidates = block.cuts
    .filter(({ role }) => role === 'auto')
    .sort((a, b) => distance(b.from, b.to) - distance(a.from, a.to))
    .slice(0, MOST_CUTS);

  let chosen: readonly string[] = [];
  let least = bar;
  for (let count = 1; count <= MOST_JOINS; count++) {
    let best: { cuts: readonly string[]; over: number; plan: PiecingPlan } | null = null;
    for (const { id } of candidates) {
      if (chosen.includes(id)) continue;
      const cuts = [...chosen, id];
      const plan = piece(withJoins(block, cuts), options);
      if (plan.verdict === 'broken' || (plan.verdict === 'set-in-seams' && start.verdict !== 'set-in-seams'))
        continue;
      const over = oversize(plan);
      if (
        !best ||
        over < best.over ||
        (over === best.over && plan.sections.length < best.plan.sections.length)
      )
        best = { cuts, over, plan };
    }
    if (!best || best.over >= least) return null;
    if (best.over === 0)
      return { cuts: best.cuts, before: start.sections.length, after: best.plan.sections.length };
    chosen = best.cuts;
    least = best.over;
  }
  return null;
}

const withJoins = (block: Block, cuts: readonly string[]): Block => ({
  ...block,
  cuts: block.cuts.map((cut) => (cuts.includes(cut.id) ? { ...cut, role: 'join' as const } : cut)),
});
