import type { Block } from '../document/project.ts';
import { isTurnedOver, turnedOver } from '../document/turned-over.ts';
import { boxOf } from '../geometry/ring.ts';
import { mirrorPlan } from '../piecing/mirror-plan.ts';
import type { PieceOptions } from '../piecing/options.ts';
import { piece } from '../piecing/piece.ts';
import type { PiecingPlan } from '../piecing/plan.ts';
import type { MadeBlock } from './making.ts';

/** A block made turned over, from itself and its plan: its papers have the same letters and numbers, mirrored. */
export function madeTurnedOver(block: Block, plan: PiecingPlan, copies: number): MadeBlock {
  return { block: turnedOver(block), plan: planOver(block, plan), copies, isMirrored: true };
}

const images = new WeakMap<PiecingPlan, PiecingPlan>();

/** The same object for the same plan. */
function planOver({ outline }: Block, plan: PiecingPlan): PiecingPlan {
  const known = images.get(plan);
  if (known !== undefined) return known;
  const { minX, maxX } = boxOf(outline);
  const image = mirrorPlan(plan, minX + maxX);
  images.set(plan, image);
  return image;
}

/** Pieces what is made: a block turned over gets the mirrored plan of the block that is drawn. */
export function pieceMade(block: Block, options: PieceOptions): PiecingPlan {
  if (!isTurnedOver(block)) return piece(block, options);
  const drawn = turnedOver(block);
  return planOver(drawn, piece(drawn, options));
}
