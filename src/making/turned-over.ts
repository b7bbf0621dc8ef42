import type { Block } from '../document/project.ts';
import { isTurnedOver, turnedOver } from '../document/turned-over.ts';
import { boxOf } from '../geometry/ring.ts';
import { mirrorPlan } from '../piecing/mirror-plan.ts';
import type { PieceOptions } from '../piecing/options.ts';
import { piece } from '../piecing/piece.ts';
import type { PiecingPlan } from '../piecing/plan.ts';

const images = new WeakMap<PiecingPlan, PiecingPlan>();

/** The plan of a block turned over, from that of the block: the same object for the same plan. */
export function planOver({ outline }: Block, plan: PiecingPlan): PiecingPlan {
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
