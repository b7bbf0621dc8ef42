import type { Point, Ring } from '../geometry/point.ts';
import type { Patch } from '../piecing/plan.ts';
import { covers, type Margin, marginsOf } from './cover.ts';
import type { CuttingRules, Grain } from './cutting-rules.ts';
import { type Frame, frameAlong, LEVEL, seamFrame } from './frame.ts';
import { type GrownPatch, grownPatch } from './grown-patch.ts';
import { clothOf, type Piece, swungOver } from './piece.ts';
import { halfRectangles, rectangle, type ShapedCut, triangles, type Wanted } from './shapes.ts';

/** What a patch may be cut as. */
export interface Choices {
  readonly rectangle: Piece;
  /** Pieces that take less cloth, the least first; none that does not cover. */
  readonly savings: readonly Piece[];
}

/** The part of a patch that cutting looks at. */
export type Cuttable = Pick<Patch, 'polygon' | 'seam'>;

/** A width and a height chosen by hand, inches. */
export interface Size {
  readonly width: number;
  readonly height: number;
}

/** How much of the cloth of a rectangle another cut may take to be worth its trouble. */
const WORTH_IT = 0.95;

/**
 * What may be cut for a patch, each proved to cover it. Position 1: the smallest rectangle around it; later positions:
 * along its own seam, its edge past the seam by the allowance. Cost: O(corners²).
 */
export function choicesFor(patch: Cuttable, rules: CuttingRules, grain: Grain): Choices {
  const wanted = wantedFor(patch, rules);
  const frames = framesFor(patch, wanted.grown, grain);
  const plain = pieceOf(smallest(frames.map((frame) => rectangle(wanted, frame))), patch);
  if (rules.savings === 'none' || grain === 'directional') return { rectangle: plain, savings: [] };
  const shaped = frames.flatMap((frame) => [
    ...triangles(wanted, frame, grain === 'block'),
    ...(rules.savings === 'all' ? halfRectangles(wanted, frame) : []),
  ]);
  const most = WORTH_IT * clothOf(plain.cut);
  const savings = shaped
    .filter(({ cut, shape }) => clothOf(cut) <= most && covers(shape, wanted.grown))
    .sort((a, b) => clothOf(a.cut) - clothOf(b.cut));
  return { rectangle: plain, savings: firstOfEachKind(savings).map((one) => pieceOf(one, patch)) };
}

/** The piece of a size chosen by hand, laid as the plain rectangle would be. It may fail to cover: see `proofOf`. */
export function pieceOfSize(patch: Cuttable, rules: CuttingRules, grain: Grain, size: Size): Piece {
  const wanted = wantedFor(patch, rules);
  const frames = framesFor(patch, wanted.grown, grain);
  const plain = smallest(frames.map((frame) => rectangle(wanted, frame)));
  const frame = frames.find((one) => sameCut(rectangle(wanted, one), plain))!;
  return pieceOf(rectangle(wanted, frame, size), patch);
}

/** Side by side, the margins that a piece leaves around its patch. */
export const proofOf = (piece: Piece, patch: Cuttable, allowance: number): readonly Margin[] =>
  marginsOf(piece.shape, grownPatch(patch.polygon, allowance));

const wantedFor = ({ polygon }: Cuttable, { allowance, ease, step }: CuttingRules): Wanted => ({
  grown: grownPatch(polygon, allowance),
  ease,
  step,
});

/** The ways a patch may be laid: along its seam, or with the grain; at position 1 along any of its sides. */
function framesFor({ polygon, seam }: Cuttable, grown: GrownPatch, grain: Grain): readonly Frame[] {
  if (seam === null) return grain === 'seam' ? [LEVEL, ...sidesOf(polygon).map(frameAlong)] : [LEVEL];
  const along = seamFrame(grown, seam);
  if (grain === 'seam') return [along];
  // Cloth that keeps to the grain lies aslant to a slanting seam and is trimmed along it once it is sewn.
  const isLevel = Math.abs(along.u[1]) < ALIGNED;
  const isUpright = Math.abs(along.u[0]) < ALIGNED;
  return isLevel || (isUpright && grain === 'block') ? [along] : [LEVEL];
}

/** A seam within this of level (as a sine) is level. */
const ALIGNED = 1e-9;

/** Directions of the sides of a ring, none twice. */
function sidesOf(ring: Ring): Point[] {
  const directions: Point[] = [];
  for (const [i, a] of ring.entries()) {
    const b = ring[(i + 1) % ring.length]!;
    const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
    if (length === 0) continue;
    const d: Point = [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
    const isKnown = [[1, 0] as Point, ...directions].some(
      (e) => Math.min(Math.abs(d[0] * e[1] - d[1] * e[0]), Math.abs(d[0] * e[0] + d[1] * e[1])) < 1e-6,
    );
    if (!isKnown) directions.push(d);
  }
  return directions;
}

const sameCut = (a: ShapedCut, b: ShapedCut): boolean =>
  a.cut.width === b.cut.width && a.cut.height === b.cut.height;

/** The first of those that take least cloth: level before aslant. */
const smallest = (cuts: readonly ShapedCut[]): ShapedCut =>
  cuts.reduce((least, one) => (clothOf(one.cut) < clothOf(least.cut) - 1e-9 ? one : least));

function firstOfEachKind(cuts: readonly ShapedCut[]): ShapedCut[] {
  const kinds = new Set<string>();
  return cuts.filter(({ cut }) => {
    if (kinds.has(cut.kind)) return false;
    kinds.add(cut.kind);
    return true;
  });
}

function pieceOf({ cut, shape }: ShapedCut, { seam }: Cuttable): Piece {
  return { cut, shape, laid: seam && [...shape.map((point) => swungOver(point, seam))].reverse() };
}
