import type { Work, WorkBlock, WorkRound } from '../document/work.ts';
import type { MadeBlock } from '../making/making.ts';
import type { PiecingPlan } from '../piecing/plan.ts';
import { partsOfPaper } from './papers.ts';
import type { RoundsPlan } from './plan-rounds.ts';

/**
 * The orders that rounds have settled, by block id, as a block keeps orders set by hand: lists of lasting ids of
 * patches. A block made with them prints the numbers in which it will be sewn.
 */
export function settledOrders(
  made: readonly MadeBlock[],
  { papers }: RoundsPlan,
): ReadonlyMap<string, readonly (readonly string[])[]> {
  const orders = new Map<string, (readonly string[])[]>();
  const planOf = new Map(made.map(({ block, plan }) => [block.id, plan]));
  for (const { id, order } of papers) {
    const { block, copy } = partsOfPaper(id);
    if (copy !== 1) continue;
    const keyOf = new Map(planOf.get(block)!.patches.map((patch) => [patch.id, patch.key]));
    orders.set(block, [...(orders.get(block) ?? []), order.map((patch) => keyOf.get(patch)!)]);
  }
  return orders;
}

/**
 * Takes blocks into work. `made` is what the rounds were planned for, `numbered` the same blocks pieced again with the
 * settled orders: patches are named as those print them. A section that kept another order (it may obey only in part)
 * keeps its rounds by the patches themselves.
 */
export function takeIntoWork(
  made: readonly MadeBlock[],
  numbered: readonly MadeBlock[],
  rounds: RoundsPlan,
): Work {
  const orderOf = new Map(rounds.papers.map(({ id, order }) => [id, order]));
  const newName = new Map<string, ReadonlyMap<string, string>>();
  const blocks = numbered.map(({ block, plan, copies }, k): WorkBlock => {
    const before = made[k]!.plan;
    const idOf = new Map(plan.patches.map(({ key, id }) => [key, id]));
    const names = new Map(before.patches.map(({ key, id }) => [id, idOf.get(key) ?? id]));
    newName.set(block.id, names);
    const letters = lettersOf(before, plan);
    return {
      id: block.id,
      name: block.name,
      copies,
      outline: block.outline,
      patches: plan.patches.map(({ id, fabric, polygon }) => ({
        id,
        ...(fabric === null ? {} : { fabric }),
        polygon,
      })),
      sections: plan.sections.map(({ letter, stamp, outline, startsFrom }) => ({
        letter,
        stamp,
        outline,
        order: orderOf.get(`${block.id}/${letters.get(letter) ?? letter}/1`)!.map((id) => names.get(id)!),
        ...(startsFrom.length > 0 ? { startsFrom } : {}),
      })),
      joins: plan.joins.map(({ left, right, seam, kind, points }) => ({
        left,
        right,
        seam,
        kind,
        points: points.map(({ label, at }) => ({ label, at })),
      })),
    };
  });
  return {
    blocks,
    rounds: rounds.rounds.map(
      ({ fabric, work }): WorkRound => ({
        ...(fabric === null ? {} : { fabric }),
        takes: work.map(({ paper, patches }) => ({
          paper,
          patches: patches.map((id) => newName.get(partsOfPaper(paper).block)!.get(id)!),
        })),
      }),
    ),
    sewn: {},
    joined: {},
    trimmed: [],
  };
}

/** Which section of the plan before each section is: the orders of a block leave its sections as they are. */
function lettersOf(before: PiecingPlan, after: PiecingPlan): ReadonlyMap<string, string> {
  const byKey = new Map(before.sections.map(({ key, letter }) => [key, letter]));
  return new Map(after.sections.map(({ key, letter }) => [letter, byKey.get(key) ?? letter]));
}
