import { areasOf, divide } from '../geometry/division.ts';
import type { Area } from '../geometry/inner-spot.ts';
import { outlineFault } from '../geometry/outline.ts';
import type { Block } from '../piecing/block.ts';

/** The patches of a block as bare areas, in reading order; none while its outline or drawing is unusable. */
export function patchesOf({ outline, cuts }: Pick<Block, 'outline' | 'cuts'>): readonly Area[] {
  if (outlineFault(outline) !== null) return [];
  const result = divide(
    outline,
    cuts.map(({ from, to }) => [from, to] as const),
  );
  return result.ok ? areasOf(result.division) : [];
}
