import { expose } from 'comlink';
import {
  type Cloth,
  type CutBlock,
  type CuttingPlan,
  cuttingPlan,
  type FabricPlan,
  type PatchPiece,
} from '../cutting/cutting-plan.ts';
import type { CuttingRules, Grain } from '../cutting/cutting-rules.ts';
import { type Choices, choicesFor, type Size } from '../cutting/pieces.ts';
import type { PlainCuts } from '../cutting/plain-cuts.ts';
import { QUICK_STEPS, THOROUGH_STEPS } from '../cutting/strips/lay-strips.ts';
import type { Patch } from '../piecing/plan.ts';

/** A block in hand. Its patches are sent before the first order that holds them, and known by number afterwards. */
export interface OrderedBlock {
  readonly id: string;
  readonly copies: number;
  readonly number: number;
}

/** What is to be cut: plain data, so that it can be handed to the worker. */
export interface CuttingOrder {
  readonly blocks: readonly OrderedBlock[];
  readonly plain: readonly PlainCuts[];
  readonly cloths: readonly Cloth[];
  readonly rules: CuttingRules;
  /** Sizes chosen by hand, by block and lasting id of the patch with a stroke between. */
  readonly sizes: ReadonlyMap<string, Size>;
}

/** What is said of a fabric in the list of all. */
export interface FabricSum {
  readonly fabric: string | null;
  readonly pieces: number;
  readonly length: number;
  readonly bound: FabricPlan['bound'];
  readonly fill: number;
  readonly tooLarge: number;
  readonly short: number;
}

export interface CutSum {
  /** Names this answer to `fabric`. */
  readonly number: number;
  readonly fabrics: readonly FabricSum[];
  /** False while strips may still come out shorter. */
  readonly isThorough: boolean;
}

/** All about one fabric. */
export interface FabricCuts {
  readonly plan: FabricPlan;
  readonly pieces: readonly PatchPiece[];
}

const known = new Map<number, readonly Patch[]>();
let made: readonly CutBlock[] = [];
let order: CuttingOrder | null = null;
let plan: CuttingPlan = { pieces: [], fabrics: [] };
let number = 0;

/** Lets a newer order come in between. */
const breathe = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));

const sumUp = (isThorough: boolean): CutSum => ({
  number,
  isThorough,
  fabrics: plan.fabrics.map(({ fabric, length, bound, fill, tooLarge, plain }) => {
    const own = plan.pieces.filter((piece) => piece.fabric === fabric);
    return {
      fabric,
      pieces:
        own.reduce((sum, { copies }) => sum + copies, 0) + plain.reduce((sum, { count }) => sum + count, 0),
      length,
      bound,
      fill,
      tooLarge: tooLarge.length,
      short: own.filter(({ short }) => short.length > 0).length,
    };
  }),
});

/** What patches may be cut as, remembered as long as the rules are the same. */
let remembered = { rules: '', choices: new WeakMap<Patch, Map<Grain, Choices>>() };

function choicesWith(rules: CuttingRules): (patch: Patch, grain: Grain) => Choices {
  const key = JSON.stringify(rules);
  if (remembered.rules !== key) remembered = { rules: key, choices: new WeakMap() };
  const { choices } = remembered;
  return (patch, grain) => {
    const own = choices.get(patch) ?? new Map<Grain, Choices>();
    choices.set(patch, own);
    const made = own.get(grain) ?? choicesFor(patch, rules, grain);
    own.set(grain, made);
    return made;
  };
}

function cut(blocks: readonly CutBlock[], plain: readonly PlainCuts[], steps: number): CuttingPlan {
  const { cloths, rules, sizes } = order!;
  return cuttingPlan({
    made: blocks,
    plain,
    cloths,
    rules,
    steps,
    choicesOf: choicesWith(rules),
    sizeOf: (block, { key }) => sizes.get(`${block}/${key}`),
  });
}

const cutting = {
  /** Takes in the patches of a block that an order will name by this number. */
  learn(of: number, patches: readonly Patch[]): void {
    known.set(of, patches);
  },

  /** A first answer, with strips as first fit lays them. */
  begin(next: CuttingOrder): CutSum {
    order = next;
    number++;
    made = next.blocks.map(
      ({ id, copies, number: of }): CutBlock => ({
        block: { id },
        plan: { patches: known.get(of) ?? [] },
        copies,
      }),
    );
    const inUse = new Set(next.blocks.map((block) => block.number));
    for (const of of known.keys()) if (!inUse.has(of)) known.delete(of);
    plan = cut(made, next.plain, QUICK_STEPS);
    return sumUp(false);
  },

  /** The same with strips as short as they are found, fabric by fabric; null when another order has come meanwhile. */
  async finish(of: number): Promise<CutSum | null> {
    for (const { fabric } of plan.fabrics) {
      await breathe();
      if (of !== number) return null;
      const own = made.map((block) => ({
        ...block,
        plan: { patches: block.plan.patches.filter((patch) => patch.fabric === fabric) },
      }));
      const plain = order!.plain.filter((one) => one.fabric === fabric);
      const better = cut(own, plain, THOROUGH_STEPS).fabrics[0];
      if (better)
        plan = { ...plan, fabrics: plan.fabrics.map((one) => (one.fabric === fabric ? better : one)) };
    }
    return sumUp(true);
  },

  /** All about one fabric; null when another order has come meanwhile, or it is in none. */
  fabric(of: number, fabric: string | null): FabricCuts | null {
    const found = plan.fabrics.find((one) => one.fabric === fabric);
    if (of !== number || !found) return null;
    return { plan: found, pieces: plan.pieces.filter((piece) => piece.fabric === fabric) };
  },
};

export type CuttingHand = typeof cutting;

expose(cutting);
