import type { Block } from '../document/project.ts';
import type { Work, WorkBlock, WorkCut, WorkQuilt, WorkRound, WorkSection } from '../document/work.ts';
import type { MadeBlock } from '../making/making.ts';
import type { PiecingPlan, Section } from '../piecing/plan.ts';
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

/** What work is taken with, beside blocks and rounds. */
export interface TakeOptions {
  /** What is cut for a patch of a block, by its lasting id; unknown when absent. */
  readonly cutOf?: (block: string, patchKey: string) => WorkCut | undefined;
  readonly quilt?: WorkQuilt | null;
  readonly pile?: number | null;
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
  { cutOf, quilt = null, pile = null }: TakeOptions = {},
): Work {
  const orderOf = new Map(rounds.papers.map(({ id, order }) => [id, order]));
  const newName = new Map<string, ReadonlyMap<string, string>>();
  const blocks = numbered.map((one, k): WorkBlock => {
    const { block, plan } = one;
    const before = made[k]!.plan;
    const idOf = new Map(plan.patches.map(({ key, id }) => [key, id]));
    const names = new Map(before.patches.map(({ key, id }) => [id, idOf.get(key) ?? id]));
    newName.set(block.id, names);
    const letters = lettersOf(before, plan);
    return frozenBlock(
      one,
      ({ letter }) =>
        orderOf.get(`${block.id}/${letters.get(letter) ?? letter}/1`)!.map((id) => names.get(id)!),
      cutOf,
    );
  });
  return {
    blocks,
    rounds: rounds.rounds.map(
      ({ fabric, work, batch }): WorkRound => ({
        ...(fabric === null ? {} : { fabric }),
        takes: work.map(({ paper, patches }) => ({
          paper,
          patches: patches.map((id) => newName.get(partsOfPaper(paper).block)!.get(id)!),
        })),
        ...(batch === undefined ? {} : { batch }),
      }),
    ),
    sewn: {},
    joined: {},
    trimmed: [],
    ...(pile === null ? {} : { pile }),
    ...(quilt === null ? {} : { quilt }),
  };
}

/** A block as it is kept in work. `orderOf`: ids of patches, as printed, in the order a section is sewn. */
export function frozenBlock(
  { block, plan, copies }: MadeBlock,
  orderOf: (section: Section) => readonly string[],
  cutOf?: TakeOptions['cutOf'],
): WorkBlock {
  return {
    id: block.id,
    name: block.name,
    copies,
    outline: block.outline,
    patches: plan.patches.map(({ id, key, fabric, polygon }) => {
      const cut = cutOf?.(block.id, key);
      return {
        id,
        ...(fabric === null ? {} : { fabric }),
        polygon,
        ...(cut === undefined ? {} : { cut }),
      };
    }),
    sections: plan.sections.map(
      (section): WorkSection => ({
        letter: section.letter,
        stamp: section.stamp,
        outline: section.outline,
        order: orderOf(section),
        ...(section.startsFrom.length > 0 ? { startsFrom: section.startsFrom } : {}),
      }),
    ),
    joins: plan.joins.map(({ left, right, seam, kind, points }) => ({
      left,
      right,
      seam,
      kind,
      points: points.map(({ label, at }) => ({ label, at })),
    })),
    drawing: {
      cuts: block.cuts,
      patches: block.patches,
      ...(block.plan === undefined ? {} : { plan: block.plan }),
      ...(block.orders === undefined ? {} : { orders: block.orders }),
    },
  };
}

/** The drawing a block in work was made from, to be pieced again; null where the file keeps none. */
export const drawingIn = ({ id, name, outline, drawing }: WorkBlock): Block | null =>
  drawing === undefined ? null : { id, name, outline, ...drawing };

/** Which section of the plan before each section is: the orders of a block leave its sections as they are. */
function lettersOf(before: PiecingPlan, after: PiecingPlan): ReadonlyMap<string, string> {
  const byKey = new Map(before.sections.map(({ key, letter }) => [key, letter]));
  return new Map(after.sections.map(({ key, letter }) => [letter, byKey.get(key) ?? letter]));
}
