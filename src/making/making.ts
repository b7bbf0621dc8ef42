import type { Block, Project } from '../document/project.ts';
import { piece } from '../piecing/piece.ts';
import type { PiecingPlan } from '../piecing/plan.ts';
import { pieceOptionsOf, type Sheet } from './piece-options.ts';

/** A block in hand: how it is sewn, and how often. What papers, cloth, quilt and rounds are made from. */
export interface MadeBlock {
  readonly block: Block;
  readonly plan: PiecingPlan;
  /** How many of it are made; 0 for one that waits. */
  readonly copies: number;
  /** It is made turned over, as where a quilt shows it mirrored: `block` and `plan` are of the mirror image then. */
  readonly isMirrored: boolean;
}

/** What of a project is made. */
export interface MakingChoice {
  /** Ids of the blocks in hand; all of them when absent. */
  readonly blocks?: Iterable<string>;
  /** Of each block in hand, 1 unless told. */
  readonly copies?: number;
  /** What is printed on; the usual sheet of the project's unit when absent. */
  readonly sheet?: Sheet | null;
}

/**
 * What is made of a project, in the order of its blocks, each pieced here and now. For those who have no worker: the
 * screens have their plans made beside the main thread and put the same together from those.
 */
export function makingOf(project: Project, choice: MakingChoice = {}): MadeBlock[] {
  const chosen = choice.blocks === undefined ? null : new Set(choice.blocks);
  const options = pieceOptionsOf(project, choice.sheet);
  return project.blocks
    .filter(({ id }) => chosen === null || chosen.has(id))
    .map((block) => ({
      block,
      plan: piece(block, options),
      copies: choice.copies ?? 1,
      isMirrored: false,
    }));
}
