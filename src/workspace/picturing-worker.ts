import { expose } from 'comlink';
import type { Ring } from '../geometry/point.ts';
import { blocksOf } from '../picturing/blocks-of.ts';
import { completedByMirror, mirroredHalf, mirroredPlaces, mirroredWeights } from '../picturing/mirror.ts';
import { type PictureBlock, type PictureWish, pictureBlocks } from '../picturing/picture-block.ts';
import { halvedPlaces, type Pixels, sumsOf } from '../picturing/pixels.ts';
import { drawnBlock } from '../picturing/to-block.ts';
import type { PieceOptions } from '../piecing/options.ts';
import { piece } from '../piecing/piece.ts';
import type { PiecingPlan } from '../piecing/plan.ts';
import { verdictSentence } from '../piecing/sentences.ts';
import { phrase } from '../words/phrase.ts';

/** What is asked: the picture twice, coarse and fine, over a block of this size. */
export interface PicturingOrder {
  readonly coarse: Pixels;
  readonly fine: Pixels;
  /** How much each pixel of the fine picture matters, 1 where nothing was brushed; null for all alike. */
  readonly weights: Float32Array | null;
  /** The number of the place that must stay one patch, for each pixel of the fine picture, 0 for none; null for none at all. */
  readonly places: Uint8Array | null;
  /** Inches. */
  readonly width: number;
  readonly height: number;
  /** The convex block inside that width and height, clockwise as it is seen; all of it when absent. */
  readonly outline?: Ring;
  readonly wish: PictureWish;
  readonly isMirrored: boolean;
  readonly options: PieceOptions;
}

/** A block so far, how it is sewn, and how far the work has come, 0 to 1. */
export interface PicturingNews {
  readonly block: PictureBlock;
  readonly done: number;
  readonly patches: number;
  readonly foundations: number;
  readonly joins: number;
  readonly matches: number;
  readonly verdict: string;
}

let number = 0;

/** Lets a newer order come in between. */
const breathe = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));

const picturing = {
  /** Makes better and better blocks, telling of each; false where another order, or a stop, came meanwhile. Null: no patch keeps the limits. */
  async make(order: PicturingOrder, onNews: (news: PicturingNews) => void): Promise<boolean | null> {
    const own = ++number;
    const { width, height, wish, isMirrored } = order;
    const [w, half] = isMirrored
      ? [width / 2, Math.max(1, Math.round(wish.patches / 2))]
      : [width, wish.patches];
    const [coarse, fine] = isMirrored
      ? [mirroredHalf(order.coarse), mirroredHalf(order.fine)]
      : [order.coarse, order.fine];
    const weights =
      order.weights && isMirrored
        ? mirroredWeights(order.weights, order.fine.width, order.fine.height)
        : order.weights;
    const places =
      order.places && isMirrored
        ? mirroredPlaces(order.places, order.fine.width, order.fine.height)
        : order.places;
    const coarseWeights = weights && asCoarse(weights, fine, coarse);
    const coarsePlaces = places && halvedPlaces(places, fine.width, fine.height);
    const results = pictureBlocks(
      sumsOf(coarse, w, coarseWeights, coarsePlaces),
      sumsOf(fine, w, weights, places),
      order.outline?.flat() ?? [0, 0, w, 0, w, height, 0, height],
      { ...wish, patches: half },
    );
    for (;;) {
      const { done, value } = results.next();
      if (own !== number) return false;
      if (done) return value === null ? null : true;
      const block = isMirrored ? completedByMirror(value.block, width, height) : value.block;
      onNews(newsOf(block, value.done, order));
      await breathe();
      if (own !== number) return false;
    }
  },

  stop(): void {
    number++;
  },
};

function newsOf(
  block: PictureBlock,
  done: number,
  { width, height, outline: given, wish, options }: PicturingOrder,
): PicturingNews {
  const grid = wish.grid ?? ONE_BLOCK;
  const [w, h] = [width / grid.columns, height / grid.rows];
  const outline = given ?? [
    [0, 0],
    [w, 0],
    [w, h],
    [0, h],
  ];
  const plans = blocksOf(block, grid, [width, height]).map((one) => {
    const drawn = drawnBlock(
      one,
      { id: 'picture', name: '', outline },
      block.fabrics.map((_, k) => `f${k}`),
      (n) => `new${n}`,
    );
    return piece(drawn.block, options);
  });
  const total = (count: (plan: PiecingPlan) => number): number =>
    plans.reduce((sum, plan) => sum + count(plan), 0);
  return {
    block,
    done,
    patches: total((plan) => plan.patches.length),
    foundations: total((plan) => plan.sections.length),
    joins: total((plan) => plan.joins.length),
    matches: total((plan) =>
      plan.joins.reduce((sum, { points }) => sum + points.filter(({ kind }) => kind === 'match').length, 0),
    ),
    verdict:
      plans.length === 1
        ? verdictSentence(plans[0]!)
        : phrase(
            '{blocks} blocks, all sewn by straight seams; the largest has {patches, plural, one {# patch} other {# patches}} on {foundations, plural, one {# foundation} other {# foundations}}.',
            {
              blocks: plans.length,
              patches: Math.max(...plans.map((plan) => plan.patches.length)),
              foundations: Math.max(...plans.map((plan) => plan.sections.length)),
            },
          ),
  };
}

const ONE_BLOCK = { columns: 1, rows: 1 };

/** What is known of each pixel of the fine picture as the coarse one has it. */
function asCoarse(weights: ArrayLike<number>, fine: Pixels, coarse: Pixels): Float32Array {
  return Float32Array.from({ length: coarse.width * coarse.height }, (_, at) => {
    const x = Math.min(fine.width - 1, Math.floor((((at % coarse.width) + 0.5) * fine.width) / coarse.width));
    const y = Math.min(
      fine.height - 1,
      Math.floor(((Math.floor(at / coarse.width) + 0.5) * fine.height) / coarse.height),
    );
    return weights[y * fine.width + x]!;
  });
}

export type PicturingHand = typeof picturing;

expose(picturing);
