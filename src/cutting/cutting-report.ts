import type { CuttingPlan, FabricPlan } from './cutting-plan.ts';
import { NO_SLACK, toBuy } from './lengths.ts';
import type { Cut } from './piece.ts';

/** The plan as the command line tells it to other programs. All inches; front view, y down. */
export interface CuttingReport {
  readonly pieces: readonly {
    readonly block: string;
    readonly patch: string;
    readonly fabric: string | null;
    readonly shape: readonly (readonly [number, number])[];
    readonly cut: Cut;
  }[];
  readonly fabrics: readonly (Pick<FabricPlan, 'fabric' | 'usableWidth' | 'length' | 'strips'> & {
    readonly bound: number;
    /** Which bound it is. */
    readonly boundBy: FabricPlan['bound']['kind'];
    readonly yards: number;
    readonly metres: number;
    /** Patches for which the fabric is too narrow, as block and patch; they are in no strip. */
    readonly tooLarge: readonly (readonly [block: string, patch: string])[];
    /** What is cut from pieces at hand, where they are used. */
    readonly fromStock?: FabricPlan['fromStock'];
  })[];
}

export const cuttingReport = ({ pieces, fabrics }: CuttingPlan): CuttingReport => ({
  pieces: pieces.map(({ block, patch, fabric, piece: { shape, cut } }) => ({
    block,
    patch,
    fabric,
    shape,
    cut,
  })),
  fabrics: fabrics.map(({ fabric, usableWidth, length, bound, strips, tooLarge, fromStock }) => {
    const { yards, metres } = toBuy(length, NO_SLACK);
    return {
      fabric,
      usableWidth,
      length,
      bound: bound.length,
      boundBy: bound.kind,
      yards,
      metres,
      strips,
      tooLarge: tooLarge.map(({ block, patch }) => [block, patch] as const),
      ...(fromStock.length > 0 && { fromStock }),
    };
  }),
});
