import type { Block, Project } from '../document/project.ts';
import { turnedOver, turnedOverId } from '../document/turned-over.ts';
import { piece } from '../piecing/piece.ts';
import type { PiecingPlan } from '../piecing/plan.ts';
import { pieceOptionsOf, type Sheet } from './piece-options.ts';
import { planOver } from './turned-over.ts';

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
  /** Ids of what is made, of blocks turned over too; all blocks as they are drawn when absent. */
  readonly blocks?: Iterable<string>;
  /** Of each that is made, or by their ids, 1 unless told. */
  readonly copies?: number | ReadonlyMap<string, number>;
  /** What is printed on; the usual sheet of the project's unit when absent. */
  readonly sheet?: Sheet | null;
}

/**
 * What is made of a project, in the order of its blocks, each pieced here and now. For those who have no worker: the
 * screens have their plans made beside the main thread and put the same together from those.
 */
export function makingOf(project: Project, choice: MakingChoice = {}): MadeBlock[] {
  const chosen = new Set(choice.blocks ?? project.blocks.map(({ id }) => id));
  const { copies = 1 } = choice;
  const copiesOf = (id: string): number => (typeof copies === 'number' ? copies : (copies.get(id) ?? 1));
  const options = pieceOptionsOf(project, choice.sheet);
  return project.blocks.flatMap((block) => {
    const over = turnedOverId(block.id);
    if (!chosen.has(block.id) && !chosen.has(over)) return [];
    return madeAsChosen(block, piece(block, options), (id) => (chosen.has(id) ? copiesOf(id) : undefined));
  });
}

/** What is made of a block and its plan: as it is drawn, turned over, or both, as there are copies asked for by either id. */
export function madeAsChosen(
  block: Block,
  plan: PiecingPlan,
  copiesOf: (id: string) => number | undefined,
): MadeBlock[] {
  const own = copiesOf(block.id);
  const over = copiesOf(turnedOverId(block.id));
  return [
    ...(own === undefined ? [] : [{ block, plan, copies: own, isMirrored: false }]),
    ...(over === undefined
      ? []
      : [{ block: turnedOver(block), plan: planOver(block, plan), copies: over, isMirrored: true }]),
  ];
}
