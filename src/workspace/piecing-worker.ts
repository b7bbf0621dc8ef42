import { expose } from 'comlink';
import type { Block } from '../piecing/block.ts';
import type { PieceOptions } from '../piecing/options.ts';
import { piece } from '../piecing/piece.ts';
import { pieceMemory } from '../piecing/piece-memory.ts';
import type { PiecingPlan } from '../piecing/plan.ts';
import type { Cure } from '../piecing/repairs/cure.ts';
import { type CureNews, findCures } from '../piecing/repairs/find-cures.ts';

/** A block to be pieced. */
export interface PieceOrder {
  readonly block: Block;
  readonly options: PieceOptions;
}

export interface MadePlan {
  readonly plan: PiecingPlan;
  /** What it took, ms. */
  readonly ms: number;
}

/** Work between two looks at what else is wanted, ms. */
const STRETCH_MS = 12;

/** Of all the project's blocks: a change of colour or of page goes through few stages again. */
const memory = pieceMemory();

let search = 0;

/** Lets messages that wait, such as a newer order, come in between two steps. */
const breathe = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));

const piecing = {
  plan({ block, options }: PieceOrder): MadePlan {
    const begun = performance.now();
    const plan = piece(block, options, memory);
    return { plan, ms: performance.now() - begun };
  },

  /** Repairs of a block; null when another search, or `dropRepairs`, came before it was done. */
  async repairs(
    { block, options }: PieceOrder,
    onProgress: (news: CureNews) => void,
  ): Promise<readonly Cure[] | null> {
    const mine = ++search;
    await breathe();
    const steps = findCures(block, options);
    let rested = performance.now();
    let told: readonly Cure[] | null = null;
    while (mine === search) {
      const step = steps.next();
      if (step.done) return step.value;
      if (performance.now() - rested < STRETCH_MS) continue;
      const { cures, ...progress } = step.value;
      // Each cure carries plans, which take their time to send.
      onProgress(cures === told ? progress : step.value);
      told = cures;
      await breathe();
      rested = performance.now();
    }
    return null;
  },

  dropRepairs(): void {
    search++;
  },
};

export type Piecing = typeof piecing;

expose(piecing);
