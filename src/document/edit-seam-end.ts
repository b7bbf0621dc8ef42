import { snapPoint, TOUCH_IN } from '../geometry/lattice.ts';
import type { Point } from '../geometry/point.ts';
import { distance, distanceToSegment } from '../geometry/ring.ts';
import { changeBlock } from './find.ts';
import type { Block, Project } from './project.ts';

/** The cuts of a block that end at a spot of its edge. */
export const cutsEndingAt = (block: Block, at: Point): readonly string[] =>
  block.cuts.flatMap(({ id, from, to }) =>
    Math.min(distance(from, at), distance(to, at)) <= TOUCH_IN ? [id] : [],
  );

/**
 * Moves the ends of cuts that lie at one spot of a block's edge to another on the same side. Nothing changes where no cut
 * ends there, one that does is locked, or the other spot lies on no side.
 */
export function moveSeamEnd(project: Project, blockId: string, from: Point, to: Point): Project {
  return changeBlock(project, blockId, (block) => {
    const ids = new Set(cutsEndingAt(block, from));
    const target = snapPoint(to);
    const n = block.outline.length;
    const isOnSide = block.outline.some((a, k) => {
      const b = block.outline[(k + 1) % n]!;
      return distanceToSegment(from, a, b) <= TOUCH_IN && distanceToSegment(target, a, b) <= TOUCH_IN;
    });
    if (ids.size === 0 || !isOnSide) return block;
    if (block.cuts.some(({ id, locked }) => ids.has(id) && locked === true)) return block;
    const moved = (p: Point): Point => (distance(p, from) <= TOUCH_IN ? target : p);
    return {
      ...block,
      cuts: block.cuts.map((cut) =>
        ids.has(cut.id) ? { ...cut, from: moved(cut.from), to: moved(cut.to) } : cut,
      ),
    };
  });
}
