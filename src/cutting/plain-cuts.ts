import type { CutKind } from './piece.ts';

/** Plain cloth cut beside the patches, all seams added: sashing, borders, binding. */
export interface PlainCuts {
  readonly fabric: string | null;
  readonly kind: CutKind;
  /** Inches. */
  readonly width: number;
  readonly height: number;
  readonly count: number;
  /** What it is: `Sashing`. */
  readonly what: string;
}
