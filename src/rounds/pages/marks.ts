import type { Fabric } from '../../document/project.ts';
import { swatch } from '../../foundations/booklet/cover.ts';
import type { Mark } from '../../foundations/marks.ts';

/** A square of a fabric, or an empty one where there is none. */
export const swatchOf = (fabric: Fabric | undefined, side: number, at: readonly [number, number]): Mark =>
  swatch({ color: fabric?.color ?? '#ffffff', picture: fabric?.picture }, side, at);
