import { colorOfLab, type Lab, labOfColor } from '../document/lab.ts';
import { chance as chanceOf } from '../geometry/chance.ts';
import { anneal, withoutLeast } from './anneal.ts';
import type { Limits, Piece } from './convex.ts';
import { byFabric, chosenFabrics, mixedFabrics, nearestFabric, type Palette, remixed } from './fabrics.ts';
import { grow } from './grow.ts';
import { type BlockGrid, overBlocks } from './over-blocks.ts';
import type { Sums } from './pixels.ts';
import { tidied } from './tidy.ts';
import {
  byMean,
  type Ground,
  leafOf,
  leavesOf,
  type Node,
  pathsOf,
  refit,
  restrict,
  revalued,
} from './tree.ts';

/** What is asked of a block made from a picture. */
export interface PictureWish {
  /** Patches aimed at; one fabric on both sides of a line that nobody would miss makes fewer. */
  readonly patches: number;
  /** How many new fabrics; not asked where `atHand` is given and shorter. */
  readonly fabrics: number;
  /** Choose among these colours, `#rrggbb`, instead of new ones. */
  readonly atHand?: readonly string[];
  /** Narrowest a patch may be, inches. */
  readonly width: number;
  /** Sharpest a corner may be, degrees. */
  readonly angle: number;
  /** 0: closest to the picture. 1: easiest to sew, on few foundations. */
  readonly ease: number;
  readonly seed: number;
  /** Level and upright lines only. */
  readonly isLevel?: boolean;
  /** Changes tried; more come closer. */
  readonly steps?: number;
  /** Spread over so many blocks; one when absent. */
  readonly grid?: BlockGrid;
}

/** A patch of the result: its outline in inches, x, y, x, y …, and its fabric by number. */
export interface PicturePatch {
  readonly piece: Piece;
  readonly fabric: number;
}

export interface PictureBlock {
  readonly patches: readonly PicturePatch[];
  /** Lines to sew, x1, y1, x2, y2 in inches, those that part the whole first. */
  readonly lines: readonly (readonly [number, number, number, number])[];
  /** Colours, `#rrggbb`; where fabrics at hand were given, which of them each is. */
  readonly fabrics: readonly { readonly color: string; readonly atHand?: number }[];
  /** Root of the mean squared distance from the picture, in Lab. */
  readonly error: number;
  /** Foundations by the lines alone; the plan may need fewer. */
  readonly foundations: number;
}

/** A result on the way to a better one, and how far the work has come, 0 to 1. */
export interface PictureProgress {
  readonly block: PictureBlock;
  readonly done: number;
}

/** The wish for ease as a charge: at 1 a foundation must explain as much as four patches do on average. */
const EASE_CHARGE = 1.6;

const USUAL_STEPS = 20_000;
/** The search is looked at, and can be stopped, so many times. */
const LOOKS = 20;

/**
 * Better and better blocks from a picture, the first at once. `coarse` and `fine` are the same picture, the fine one
 * about twice as many pixels; `outline` is the convex block in inches. A binary space partition is sewable by
 * construction (idea: Radha, Vetterli and Leonardi, IEEE Trans. Image Processing 5(12), 1996): grown best first,
 * annealed with lines moved, replanted and lifted, fabrics chosen halfway for the whole, lines polished on the fine
 * picture and their ends brought together. Steps are counted, not timed: the same seed gives the same block.
 * Null where not even one patch keeps the limits.
 */
export function* pictureBlocks(
  coarse: Sums,
  fine: Sums,
  outline: Piece,
  wish: PictureWish,
): Generator<PictureProgress, PictureBlock | null> {
  const limits: Limits = { width: wish.width, cosine: Math.cos((wish.angle * Math.PI) / 180) };
  const chance = chanceOf(wish.seed);
  let ground: Ground = { sums: coarse, limits, worth: byMean };
  const first = leafOf(ground, outline);
  if (first === null) return null;
  const count = wish.patches;
  const how = { isLevel: wish.isLevel ?? false };
  let root = grow(ground, first, count, 0, how);
  let palette = paletteFor(root, coarse, wish, chance);
  const answer = (over: Sums): PictureBlock => {
    const spread = wish.grid
      ? overBlocks({ ...ground, sums: over }, root, wish.grid, sizeOf(outline), (part) =>
          withoutIdleLines(ground, part),
        )
      : root;
    return blockOf(spread, over, palette, wish);
  };
  yield { block: answer(coarse), done: 0.02 };

  const steps = wish.steps ?? USUAL_STEPS;
  const charge = (): number => (EASE_CHARGE * wish.ease * root.value) / Math.max(1, count);
  for (let look = 0; look < LOOKS; look++) {
    const isPainted = look >= LOOKS / 2;
    if (isPainted) {
      palette =
        look === LOOKS / 2 ? paletteFor(root, coarse, wish, chance) : next(root, palette, coarse, wish);
      ground = { ...ground, worth: byFabric(palette.map(({ lab }) => lab)) };
      root = revalued(ground, root);
    }
    const cold = 1 - look / LOOKS;
    root = anneal(ground, root, {
      ...how,
      count,
      steps: Math.round(steps / LOOKS),
      charge: charge(),
      heat: 0.1 * cold * cold,
      isQuick: true,
      chance,
    });
    if (!isPainted) palette = paletteFor(root, coarse, wish, chance);
    yield { block: answer(coarse), done: 0.02 + (0.78 * (look + 1)) / LOOKS };
  }

  ground = { sums: fine, limits, worth: byFabric(palette.map(({ lab }) => lab)) };
  // A line that grazes what must stay whole is seen only now.
  root = refit(ground, root, outline) ?? restrict(ground, root, outline) ?? root;
  const polish = (share: number): void => {
    root = anneal(ground, root, {
      ...how,
      count,
      steps: Math.round(steps * share),
      charge: charge(),
      heat: 0,
      isPolish: true,
      chance,
    });
  };
  polish(0.6);
  palette = next(root, palette, fine, wish);
  ground = { ...ground, worth: byFabric(palette.map(({ lab }) => lab)) };
  root = revalued(ground, root);
  yield { block: answer(fine), done: 0.9 };
  root = withoutIdleLines(ground, root);
  const missed = Math.max(1, fine.variance - root.value);
  // What costs next to nothing first; a near miss that is left is worth a little more.
  for (const share of [0.004, 0.012, 0.03, 0.08])
    root = tidied(ground, root, share * missed + 1e-9, how.isLevel);
  const block = answer(fine);
  yield { block, done: 1 };
  return block;
}

/** How far an outline that begins at 0, 0 reaches across and down. */
const sizeOf = (outline: Piece): readonly [number, number] => [
  Math.max(...outline.filter((_, i) => i % 2 === 0)),
  Math.max(...outline.filter((_, i) => i % 2 === 1)),
];

interface Choice {
  readonly lab: Lab;
  readonly atHand?: number;
}

const lessMean = (lab: Lab, { mean }: Sums): Lab => ({
  l: lab.l - mean.l,
  a: lab.a - mean.a,
  b: lab.b - mean.b,
});

function paletteFor(root: Node, sums: Sums, wish: PictureWish, chance: () => number): readonly Choice[] {
  const leaves = leavesOf(root);
  if (wish.atHand === undefined)
    return mixedFabrics(leaves, Math.max(1, wish.fabrics), chance).map((lab) => ({ lab }));
  const labs = wish.atHand.map((color) => lessMean(labOfColor(color), sums));
  return chosenFabrics(leaves, labs, wish.fabrics).map((atHand) => ({ lab: labs[atHand]!, atHand }));
}

/** New fabrics follow what is cut from them; those at hand are what they are. */
function next(root: Node, palette: readonly Choice[], sums: Sums, wish: PictureWish): readonly Choice[] {
  if (wish.atHand !== undefined)
    return palette.map(({ atHand }) => ({
      lab: lessMean(labOfColor(wish.atHand![atHand!]!), sums),
      atHand: atHand!,
    }));
  return remixed(
    leavesOf(root),
    palette.map(({ lab }) => lab),
  ).map((lab) => ({ lab }));
}

/** Lines between leaves of one fabric come out: nobody would miss them. */
function withoutIdleLines(ground: Ground, start: Node): Node {
  let root = start;
  for (;;) {
    const fewer = withoutLeast(ground, root);
    if (fewer === null || root.value - fewer.value > 1e-6 * Math.abs(root.value)) return root;
    root = fewer;
  }
}

/** New fabrics nearer than this in CIELAB nobody would buy twice: about what is just told apart side by side. */
const SAME_FABRIC = 4;

/** For each new fabric the first that is as good as the same; one at hand stands for itself. */
function standIns(choices: readonly Choice[]): readonly number[] {
  return choices.map(({ lab, atHand }, k) => {
    if (atHand !== undefined) return k;
    return choices.findIndex(
      (one) => Math.hypot(one.lab.l - lab.l, one.lab.a - lab.a, one.lab.b - lab.b) < SAME_FABRIC,
    );
  });
}

function blockOf(root: Node, sums: Sums, choices: readonly Choice[], wish: PictureWish): PictureBlock {
  const labs: Palette = choices.map(({ lab }) => lab);
  const leaves = leavesOf(root);
  const laid = leaves.map(({ sum }) => nearestFabric(sum, labs));
  const explained = laid.reduce((sum, { value }) => sum + value, 0);
  const standIn = standIns(choices);
  const used = [...new Set(laid.map(({ fabric }) => standIn[fabric]!))].sort(
    (a, b) => labs[b]!.l - labs[a]!.l,
  );
  const { mean } = sums;
  return {
    patches: leaves.map(({ piece }, k) => ({ piece, fabric: used.indexOf(standIn[laid[k]!.fabric]!) })),
    lines: linesOf(root),
    fabrics: used.map((k) => {
      const { lab, atHand } = choices[k]!;
      if (atHand !== undefined) return { color: wish.atHand![atHand]!, atHand };
      return { color: colorOfLab({ l: lab.l + mean.l, a: lab.a + mean.a, b: lab.b + mean.b }) };
    }),
    error: Math.sqrt(Math.max(0, sums.variance - explained) / sums.weight),
    foundations: root.foundations,
  };
}

/** The stretch of each line inside its piece: where the corners of both sides are the same. */
function linesOf(root: Node): (readonly [number, number, number, number])[] {
  const lines: (readonly [number, number, number, number])[] = [];
  for (const path of pathsOf(root, ({ line }) => line !== null)) {
    let node = root;
    for (const isMore of path) node = node.line === null ? node : isMore ? node.more : node.less;
    if (node.line === null) continue;
    const more = node.more.piece;
    const shared: number[] = [];
    for (let i = 0; i < node.less.piece.length; i += 2)
      for (let j = 0; j < more.length; j += 2)
        if (node.less.piece[i] === more[j] && node.less.piece[i + 1] === more[j + 1])
          shared.push(more[j]!, more[j + 1]!);
    if (shared.length === 4) lines.push(shared as unknown as readonly [number, number, number, number]);
  }
  return lines;
}
