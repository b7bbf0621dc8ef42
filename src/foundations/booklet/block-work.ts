import type { FabricPicture } from '../../document/project.ts';
import type { LengthUnit } from '../../geometry/length.ts';
import type { PiecingPlan } from '../../piecing/plan.ts';
import type { FabricLabel } from '../foundation/label-request.ts';

/** A block that further pages are made of: its plan has passed the last check. */
export interface BlockWork {
  readonly plan: PiecingPlan;
  readonly blockId: string;
  /** As the typeface can print it. */
  readonly blockName: string;
  readonly copies: number;
  readonly unit: LengthUnit;
  /** Seam allowance, inches. */
  readonly allowance: number;
  readonly fabrics: readonly FabricWork[];
}

/** A fabric of the project, as pages name and show it. */
export interface FabricWork {
  readonly id: string;
  /** `#rrggbb`. */
  readonly color: string;
  /** Shown on the pages that are there to look at; foundations show colours alone. */
  readonly picture?: FabricPicture;
  readonly label: FabricLabel;
}

/** Code and name of a fabric: `#3 Night sea`. */
export const fabricWords = ({ label }: FabricWork): string =>
  label.meaning === label.code ? label.code : `${label.code} ${label.meaning}`;
