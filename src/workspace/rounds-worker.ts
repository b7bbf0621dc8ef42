import { expose } from 'comlink';
import { completed, withOrders } from '../document/carry-patches.ts';
import type { Fabric } from '../document/project.ts';
import type { Work } from '../document/work.ts';
import type { MadeBlock } from '../making/making.ts';
import type { PieceOptions } from '../piecing/options.ts';
import { piece } from '../piecing/piece.ts';
import { papersOf } from '../rounds/papers.ts';
import { plansOfRounds, type RoundsPlan } from '../rounds/plan-rounds.ts';
import { settledOrders, takeIntoWork } from '../rounds/take-into-work.ts';

export interface RoundsOrder {
  readonly made: readonly MadeBlock[];
  readonly fabrics: readonly Fabric['id'][];
  readonly isFirstPairCut: boolean;
}

/** A plan of rounds in numbers, and how far the search has come, 0 to 1. */
export interface RoundsNews {
  readonly rounds: number;
  readonly bound: number;
  readonly byPosition: number;
  readonly byLeafing: number;
  readonly papers: number;
  readonly done: number;
}

/** What taking the last plan into work makes of it. */
export interface Taken {
  readonly work: Work;
  /** The orders each block is to keep, so that its papers are numbered as they are sewn. */
  readonly orders: readonly (readonly [block: string, orders: readonly (readonly string[])[]])[];
}

let number = 0;
let latest: RoundsPlan | null = null;
let made: readonly MadeBlock[] = [];

/** Lets a newer order come in between. */
const breathe = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));

const rounds = {
  /** Plans rounds, telling of each better plan; false when another order has come meanwhile. */
  async plan(order: RoundsOrder, onNews: (news: RoundsNews) => void): Promise<boolean> {
    const own = ++number;
    made = order.made;
    latest = null;
    const papers = papersOf(made);
    const options = { fabricOrder: order.fabrics, isFirstPairCut: order.isFirstPairCut };
    for (const { plan, done } of plansOfRounds(papers, options)) {
      if (own !== number) return false;
      latest = plan;
      const { bound, byPosition, byLeafing } = plan;
      onNews({ rounds: plan.rounds.length, bound, byPosition, byLeafing, papers: papers.length, done });
      await breathe();
    }
    return own === number;
  },

  /** Takes the best plan so far into work. Null where there is none. */
  take(options: PieceOptions): Taken | null {
    if (latest === null) return null;
    number++;
    const orders = settledOrders(made, latest);
    const numbered = made.map((one): MadeBlock => {
      const block = withOrders(completed(one.block), orders.get(one.block.id));
      return { ...one, block, plan: piece(block, options) };
    });
    return { work: takeIntoWork(made, numbered, latest), orders: [...orders] };
  },
};

export type RoundsHand = typeof rounds;

expose(rounds);
