import { expose } from 'comlink';
import { cuttingPlan } from '../cutting/cutting-plan.ts';
import { clothsOf, cuttingRulesOf, handSizesOf } from '../cutting/project-cutting.ts';
import { completed, withOrders } from '../document/carry-patches.ts';
import type { Block, Project } from '../document/project.ts';
import type { Work, WorkCut } from '../document/work.ts';
import { signedArea } from '../geometry/ring.ts';
import type { MadeBlock } from '../making/making.ts';
import { pieceMade } from '../making/turned-over.ts';
import type { PieceOptions } from '../piecing/options.ts';
import type { PiecingPlan } from '../piecing/plan.ts';
import { type BatchChoice, batchesOf, plansOfBatches } from '../rounds/batches.ts';
import { type Paper, papersOf } from '../rounds/papers.ts';
import type { RoundsPlan } from '../rounds/plan-rounds.ts';
import { quiltSteps } from '../rounds/quilt-steps.ts';
import { type TakenChanges, takeChanges } from '../rounds/take-changes.ts';
import { settledOrders, takeIntoWork } from '../rounds/take-into-work.ts';

export interface RoundsOrder {
  readonly made: readonly MadeBlock[];
  /** Ids of the fabrics, in the order they are leafed through. */
  readonly fabrics: readonly string[];
  readonly isFirstPairCut: boolean;
  readonly batches: BatchChoice;
}

/** How work is taken. */
export interface TakeOrder {
  /** Without pictures. */
  readonly project: Project;
  readonly options: PieceOptions;
  readonly pile: number | null;
}

/** A plan of rounds in numbers, and how far the search has come, 0 to 1. */
export interface RoundsNews {
  readonly rounds: number;
  readonly bound: number;
  readonly byPosition: number;
  readonly byLeafing: number;
  readonly papers: number;
  readonly patches: number;
  readonly batches: number;
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
    const patches = papers.reduce((sum, { form }) => sum + form.patches.length, 0);
    const batches = batchesOf(papers, order.batches, largestIn(made));
    const options = { fabricOrder: order.fabrics, isFirstPairCut: order.isFirstPairCut };
    for (const { plan, done } of plansOfBatches(batches, options)) {
      if (own !== number) return false;
      latest = plan;
      const { bound, byPosition, byLeafing } = plan;
      onNews({
        rounds: plan.rounds.length,
        bound,
        byPosition,
        byLeafing,
        papers: papers.length,
        patches,
        batches: batches.length,
        done,
      });
      await breathe();
    }
    return own === number;
  },

  /** Takes the best plan so far into work. Null where there is none. */
  take({ project, options, pile }: TakeOrder): Taken | null {
    if (latest === null) return null;
    number++;
    const orders = settledOrders(made, latest);
    const numbered = made.map((one): MadeBlock => {
      const block = withOrders(completed(one.block), orders.get(one.block.id));
      return { ...one, block, plan: pieceMade(block, options) };
    });
    const planOf = new Map(numbered.map(({ block, plan }) => [block.id, plan]));
    const quilt = quiltSteps(
      project,
      1 + (project.quilt?.copies?.length ?? 0),
      (id) => planOf.get(id) ?? null,
    );
    const cutOf = cutsOf(project, numbered);
    return { work: takeIntoWork(made, numbered, latest, { cutOf, quilt, pile }), orders: [...orders] };
  },

  /** What taking a changed drawing of a block into work would do. */
  change(work: Work, changed: MadeBlock, project: Project): TakenChanges {
    return takeChanges(work, changed, cutsOf(project, [changed]));
  },

  /** The plan of a drawing that is in work. */
  planFor(block: Block, options: PieceOptions): PiecingPlan {
    return pieceMade(block, options);
  },
};

/** What is cut for each patch, by block and lasting id: the sizes of the cutting list. */
function cutsOf(
  project: Project,
  blocks: readonly MadeBlock[],
): (block: string, patchKey: string) => WorkCut | undefined {
  const { pieces } = cuttingPlan({
    made: blocks,
    cloths: clothsOf(project),
    rules: cuttingRulesOf(project),
    sizeOf: handSizesOf(project),
    steps: 0,
  });
  const cuts = new Map(
    pieces.map(({ block, key, piece: { cut } }) => [
      `${block}/${key}`,
      { kind: cut.kind, width: cut.width, height: cut.height },
    ]),
  );
  return (block, key) => cuts.get(`${block}/${key}`);
}

function largestIn(blocks: readonly MadeBlock[]): (paper: Paper) => number {
  const areas = new Map(
    blocks.flatMap(({ block, plan }) =>
      plan.patches.map(({ id, polygon }) => [`${block.id}/${id}`, Math.abs(signedArea(polygon))] as const),
    ),
  );
  return ({ block, form }) => Math.max(0, ...form.patches.map((id) => areas.get(`${block}/${id}`) ?? 0));
}

export type RoundsHand = typeof rounds;

expose(rounds);
