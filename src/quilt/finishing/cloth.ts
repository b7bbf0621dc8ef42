import { NO_SLACK, type ToBuy, toBuy } from '../../cutting/lengths.ts';
import { fitsWidth, lengthOfStrips } from '../../cutting/strips/cloth.ts';
import { layStrips } from '../../cutting/strips/lay-strips.ts';
import { stripBound } from '../../cutting/strips/strip-bound.ts';
import type { QuiltCopy } from '../../document/quilt.ts';
import type { PlainPiece } from './plain-pieces.ts';

/** What of one fabric goes into the plain pieces and the finishing of a quilt. */
export interface ClothNeed {
  readonly fabric: string | null;
  /** Heights of the strips across the usable width, the tallest first, each with what is cut from it. */
  readonly strips: readonly { readonly height: number; readonly cuts: readonly string[] }[];
  /** Sum of the heights, inches, and what no plan comes under. */
  readonly length: number;
  readonly bound: number;
  readonly buy: ToBuy;
  /** What the cloth is too narrow for whichever way it lies: joined from two lengths. */
  readonly tooWide: readonly PlainPiece[];
}

/** The pieces of a quilt and of those made beside it, each in its own fabrics. */
export const inAllCopies = (pieces: readonly PlainPiece[], copies: readonly QuiltCopy[]): PlainPiece[] => [
  ...pieces,
  ...copies.flatMap(({ fabrics }) =>
    pieces.map((piece) => ({
      ...piece,
      fabric: piece.fabric === null ? null : (fabrics[piece.fabric] ?? piece.fabric),
    })),
  ),
];

/** Strips across the usable width for plain pieces, fabric by fabric, in the order they first come. `steps` as in `layStrips`. */
export function clothFor(
  pieces: readonly PlainPiece[],
  usableWidth: (fabric: string | null) => number,
  steps: number,
): ClothNeed[] {
  const fabrics = [...new Set(pieces.map(({ fabric }) => fabric))];
  return fabrics.map((fabric) => {
    const width = usableWidth(fabric);
    const own = pieces.filter((piece) => piece.fabric === fabric);
    const fits = (piece: PlainPiece): boolean => fitsWidth({ ...piece, turns: true }, width);
    const cuts = own.filter(fits).flatMap((piece) => Array.from({ length: piece.count }, () => piece));
    const sizes = cuts.map((piece) => ({ width: piece.width, height: piece.height, turns: true }));
    const strips = layStrips(sizes, width, steps);
    const length = lengthOfStrips(strips);
    return {
      fabric,
      length,
      bound: stripBound(sizes, width).length,
      buy: toBuy(length, NO_SLACK),
      strips: strips.map((strip) => ({
        height: strip.height,
        cuts: strip.cuts.map(({ item }) => cuts[item]!.what),
      })),
      tooWide: own.filter((piece) => !fits(piece)),
    };
  });
}
