import type { MadeBlock } from '../making/making.ts';
import type { Patch } from '../piecing/plan.ts';
import type { Margin } from './cover.ts';
import type { CuttingRules, Grain } from './cutting-rules.ts';
import { isLongStrip, type JoinedCloth, joinedPanels, joinedStrips } from './joined-cloth.ts';
import { type CutKind, cutKey, PIECES_FROM, type Piece } from './piece.ts';
import { type Choices, choicesFor, pieceOfSize, proofOf, type Size } from './pieces.ts';
import type { PlainCuts } from './plain-cuts.ts';
import { cutsThatSave, type Offer } from './savings.ts';
import { type CutSize, fitsWidth, type LaidStrip, lengthOfStrips } from './strips/cloth.ts';
import { layStrips } from './strips/lay-strips.ts';
import { cutFromStock, type StockPiece } from './strips/stock.ts';
import { type Bound, stripBound } from './strips/strip-bound.ts';

/** One patch of one copy of a block, as it is called: `b1`, `A1`, 1. */
export type CutFor = readonly [block: string, patch: string, copy: number];

/** What a fabric asks of cutting. */
export interface Cloth {
  /** Id of the fabric; null for patches without one. */
  readonly fabric: string | null;
  readonly grain: Grain;
  /** Between the selvages, inches. */
  readonly usableWidth: number;
  /** Fat quarters, precuts and scraps to be used up first, inches. */
  readonly stock?: readonly StockPiece[];
}

/** A patch with the piece cut for it, the same in every copy. */
export interface PatchPiece {
  readonly block: string;
  /** As it is printed, and its lasting id. */
  readonly patch: string;
  readonly key: string;
  readonly fabric: string | null;
  readonly firstCopy: number;
  readonly copies: number;
  readonly piece: Piece;
  /** Where a size chosen by hand does not cover, the sides that fall short. Empty for every size worked out. */
  readonly short: readonly Margin[];
}

export interface StripCut {
  readonly kind: CutKind;
  /** As it lies in the strip, inches. */
  readonly width: number;
  readonly height: number;
  /** Of a half rectangle, see `Cut`. */
  readonly slant?: readonly [upper: number, lower: number];
  readonly for: readonly CutFor[];
  /** What plain cloth it is, where it is for no patch. */
  readonly what?: string;
}

export interface Strip {
  /** Inches off the length of the fabric. */
  readonly height: number;
  /** In the order to make them, from one end. */
  readonly cuts: readonly StripCut[];
}

/** A piece of cloth at hand, as it lies on the mat, and what is cut from it. */
export interface StockCuts {
  readonly width: number;
  readonly height: number;
  readonly strips: readonly Strip[];
}

export interface FabricPlan {
  readonly fabric: string | null;
  readonly grain: Grain;
  readonly usableWidth: number;
  /** The tallest first. */
  readonly strips: readonly Strip[];
  /** What is cut from pieces at hand instead, where any are to be used. */
  readonly fromStock: readonly StockCuts[];
  /** Sum of the heights of the strips, inches. */
  readonly length: number;
  /** What no plan for these cuts comes under. */
  readonly bound: Bound;
  /** Area of the cuts over area of the strips; 1 where there are none. */
  readonly fill: number;
  /** Pieces for which the fabric is too narrow whichever way they may lie. */
  readonly tooLarge: readonly PatchPiece[];
  /** Plain cloth in it, and what of that is joined from parts. */
  readonly plain: readonly PlainCuts[];
  readonly joined: readonly JoinedCloth[];
}

export interface CuttingPlan {
  /** In the order of the blocks, then of their patches. */
  readonly pieces: readonly PatchPiece[];
  /** In the order asked for; patches without a fabric last. */
  readonly fabrics: readonly FabricPlan[];
}

/** What cutting looks at of a block in hand. */
export interface CutBlock {
  readonly block: Pick<MadeBlock['block'], 'id'>;
  readonly plan: Pick<MadeBlock['plan'], 'patches'>;
  readonly copies: number;
}

export interface CuttingRequest {
  readonly made: readonly CutBlock[];
  readonly plain?: readonly PlainCuts[];
  /** In the order wanted. A fabric that is not among them is cut as the rules have it. */
  readonly cloths: readonly Cloth[];
  readonly rules: CuttingRules;
  /** A size chosen by hand for a patch of a block, or undefined. */
  readonly sizeOf?: (block: string, patch: Patch) => Size | undefined;
  /** What a patch may be cut as, by whoever remembers it; worked out anew when absent. */
  readonly choicesOf?: (patch: Patch, grain: Grain) => Choices;
  /** Searching allowed for each fabric, see `layStrips`. */
  readonly steps: number;
}

/**
 * What to cut, and from how much: a piece for every patch, proved to cover it, and strips for all of them, fabric by
 * fabric. Pure and stable: the same request gives the same plan. A block without a usable outline has no patches.
 */
export function cuttingPlan(request: CuttingRequest): CuttingPlan {
  const cloths = clothsOf(request);
  const wanted = wantedPieces(request, cloths);
  const fabrics = [...cloths.values()].flatMap((cloth): FabricPlan[] => {
    const own = wanted.filter(({ piece }) => piece.fabric === cloth.fabric);
    const chosen = cutsThatSave(own, ({ cut }) => fitsWidth(sizeIn(cloth, cut), cloth.usableWidth));
    for (const [i, piece] of chosen.entries()) own[i]!.piece = { ...own[i]!.piece, piece };
    const plain = (request.plain ?? []).filter(({ fabric }) => fabric === cloth.fabric);
    return own.length + plain.length === 0 ? [] : [planFor(cloth, own, plain, request)];
  });
  return { pieces: wanted.map(({ piece }) => piece), fabrics };
}

/** A patch on its way to its piece. */
interface Wanted extends Offer {
  piece: PatchPiece;
  /** Number of its first copy: a block may be in hand twice, once as it is and once mirrored. */
  readonly firstCopy: number;
}

/** One for each fabric that is laid, in the order asked for, then as they come; patches without a fabric last. */
function clothsOf({ made, plain, cloths, rules }: CuttingRequest): ReadonlyMap<string | null, Cloth> {
  const laid = new Set([
    ...made.flatMap(({ plan }) => plan.patches.map(({ fabric }) => fabric)),
    ...(plain ?? []).map(({ fabric }) => fabric),
  ]);
  const known = new Map(cloths.map((cloth) => [cloth.fabric, cloth]));
  const order = [...known.keys(), ...laid].filter((fabric) => fabric !== null && laid.has(fabric));
  return new Map(
    [...order, ...(laid.has(null) ? [null] : [])].map((fabric) => [
      fabric,
      known.get(fabric) ?? { fabric, grain: 'seam', usableWidth: rules.usableWidth },
    ]),
  );
}

function wantedPieces(
  { made, rules, sizeOf, choicesOf }: CuttingRequest,
  cloths: ReadonlyMap<string | null, Cloth>,
): Wanted[] {
  const wanted: Wanted[] = [];
  const copiesSoFar = new Map<string, number>();
  for (const { block, plan, copies } of made) {
    if (!(copies >= 1)) continue;
    const firstCopy = (copiesSoFar.get(block.id) ?? 0) + 1;
    copiesSoFar.set(block.id, firstCopy + copies - 1);
    for (const patch of plan.patches) {
      const { grain } = cloths.get(patch.fabric)!;
      const byHand = sizeOf?.(block.id, patch);
      const choices = byHand
        ? { rectangle: pieceOfSize(patch, rules, grain, byHand), savings: [] }
        : (choicesOf?.(patch, grain) ?? choicesFor(patch, rules, grain));
      const short = byHand
        ? proofOf(choices.rectangle, patch, rules.allowance).filter(({ missing }) => missing > 0)
        : [];
      const piece = {
        block: block.id,
        patch: patch.id,
        key: patch.key,
        fabric: patch.fabric,
        firstCopy,
        copies,
        piece: choices.rectangle,
        short,
      };
      wanted.push({ choices, copies, firstCopy, piece });
    }
  }
  return wanted;
}

const sizeIn = ({ grain }: Cloth, { width, height }: Size): CutSize => ({
  width,
  height,
  turns: grain !== 'directional',
});

/** So much length has to be saved for borders to be joined: an eighth of a yard, the least a shop cuts. */
const WORTH_JOINING_IN = 4.5;

/**
 * Cuts for all pieces that the fabric is wide enough for, laid in strips. Plain cloth that it is too narrow for is joined
 * from panels; long strips are, where that saves cloth.
 */
function planFor(
  cloth: Cloth,
  wanted: readonly Wanted[],
  plain: readonly PlainCuts[],
  request: CuttingRequest,
): FabricPlan {
  const { usableWidth } = cloth;
  const { steps, rules } = request;
  const turns = cloth.grain !== 'directional';
  const fits = (cut: PlainCuts): boolean => fitsWidth(sizeIn(cloth, cut), usableWidth);
  const long = plain.filter((cut) => isLongStrip(cut, usableWidth));
  const [strips, panels] = [
    joinedStrips(long, usableWidth, rules.allowance),
    plain
      .filter((cut) => !fits(cut) && !long.includes(cut))
      .map((cut) => joinedPanels(cut, usableWidth, rules.allowance, turns)),
  ];
  if (long.length === 0) return planWith(cloth, wanted, plain, panels, steps);
  const joined = planWith(cloth, wanted, plain, [...panels, ...strips], steps);
  // A directional print runs up every border only where its strips are cut as they lie.
  if (!long.every(fits)) return joined;
  const whole = planWith(cloth, wanted, plain, panels, steps);
  return joined.length <= whole.length - WORTH_JOINING_IN ? joined : whole;
}

/** The plan with some of the plain cloth cut as parts that are joined. */
function planWith(
  cloth: Cloth,
  wanted: readonly Wanted[],
  plain: readonly PlainCuts[],
  joined: readonly JoinedCloth[],
  steps: number,
): FabricPlan {
  const { usableWidth } = cloth;
  const fits = ({ piece }: Wanted): boolean => fitsWidth(sizeIn(cloth, piece.piece.cut), usableWidth);
  const fitting = wanted.filter(fits);
  const made = new Set(joined.flatMap((one) => one.cuts));
  const asCut = [...plain.filter((cut) => !made.has(cut)), ...joined.map(({ parts }) => parts)];
  const cuts = [...cutsFor(fitting), ...asCut.flatMap(plainCuts)];
  const sizes = cuts.map((cut) => sizeIn(cloth, cut));
  const named = (strips: readonly LaidStrip[], which: readonly number[]): readonly Strip[] =>
    strips.map(({ height, cuts: laid }) => ({
      height,
      cuts: laid.map((cut) => ({ ...cuts[which[cut.item]!]!, width: cut.width, height: cut.height })),
    }));
  const every = [...sizes.keys()];
  const { laid, left } = cloth.stock?.length ? cutFromStock(sizes, cloth.stock) : { laid: [], left: every };
  const bought = left.map((i) => sizes[i]!);
  const strips = named(layStrips(bought, usableWidth, steps), left);
  const length = lengthOfStrips(strips);
  const area = bought.reduce((sum, { width, height }) => sum + width * height, 0);
  return {
    fabric: cloth.fabric,
    grain: cloth.grain,
    usableWidth,
    strips,
    fromStock: laid.map((one) => ({
      width: one.width,
      height: one.height,
      strips: named(one.strips, every),
    })),
    length,
    bound: stripBound(bought, usableWidth),
    fill: length === 0 ? 1 : area / (length * usableWidth),
    tooLarge: wanted.filter((one) => !fits(one)).map(({ piece }) => piece),
    plain,
    joined,
  };
}

const plainCuts = ({ kind, width, height, count, what }: PlainCuts): StripCut[] =>
  Array.from({ length: count }, () => ({ kind, width, height, for: [], what }));

/** Every cut once, with the patches it is for: as many as it yields, in the order of the pieces. */
function cutsFor(wanted: readonly Wanted[]): StripCut[] {
  const cuts: (StripCut & { readonly for: CutFor[] })[] = [];
  const open = new Map<string, CutFor[]>();
  for (const { piece, firstCopy } of wanted) {
    const { kind, width, height, slant } = piece.piece.cut;
    const key = cutKey(piece.piece.cut);
    for (let copy = firstCopy; copy < firstCopy + piece.copies; copy++) {
      const one: CutFor = [piece.block, piece.patch, copy];
      const room = open.get(key);
      if (room && room.length < PIECES_FROM[kind]) {
        room.push(one);
        continue;
      }
      const cut = { kind, width, height, ...(slant && { slant }), for: [one] };
      cuts.push(cut);
      open.set(key, cut.for);
    }
  }
  return cuts;
}
