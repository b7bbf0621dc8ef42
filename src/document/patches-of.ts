import { divide, ringOf } from '../geometry/division.ts';
import type { Area } from '../geometry/inner-spot.ts';
import { outlineFault } from '../geometry/outline.ts';
import type { Block } from '../piecing/block.ts';

/** The patches of a block as bare areas, in reading order; none while its outline or drawing is unusable. */
export function patchesOf(block: Block): readonly Area[] {
  if (outlineFault(block.outline) !== null) return [];
  const result = divide(
    block.outline,
    block.cuts.map(({ from, to }) => [from, to] as const),
  );
  if (!result.ok) return [];
  const { division } = result;
  return division.faces.map(({ edge, islands }) => ({
    polygon: ringOf(division, edge),
    holes: islands.map((island) => ringOf(division, island)),
  }));
}
