import { carryPaint } from '../document/carry-paint.ts';
import { changeBlock } from '../document/find.ts';
import { cleanPoint } from '../document/limits.ts';
import { cleanOutline } from '../document/outline.ts';
import type { Block, Cut, Project } from '../document/project.ts';
import type { Point } from '../geometry/point.ts';
import { cornerFollowers, type MovedCut, moveEndAttached, shiftAttached } from './attached.ts';
import { samePlace } from './nearness.ts';

/**
 * The edits behind dragging: everything that moves together moves in one change, so that paint is carried over
 * once, from the drawing before to the drawing after. Inches; what cannot be stored changes nothing.
 */

/** Shifts cuts, keeping them and the cuts that end on them attached to the lines they lay on. */
export const shiftCutsAttached = (
  project: Project,
  blockId: string,
  cutIds: readonly string[],
  by: Point,
): Project => reshaped(project, blockId, (block) => placed(block, shiftAttached(block, new Set(cutIds), by)));

/** Moves one end of a cut; ends of other cuts that lay on it stay on it. */
export const moveEnd = (
  project: Project,
  blockId: string,
  cutId: string,
  end: 'from' | 'to',
  to: Point,
): Project =>
  reshaped(project, blockId, (block) => {
    const cut = block.cuts.find(({ id }) => id === cutId);
    return cut === undefined ? block : placed(block, moveEndAttached(block, cut, end, to));
  });

/** Moves a corner of the outline; cuts that end on its two edges stay on them. */
export const moveCornerAttached = (project: Project, blockId: string, corner: number, to: Point): Project =>
  reshaped(project, blockId, (block) => {
    const outline = cleanOutline(block.outline.map((point, index) => (index === corner ? to : point)));
    if (outline === null || block.outline[corner] === undefined) return block;
    if (samePlace(outline[corner]!, block.outline[corner])) return block;
    return { ...placed(block, cornerFollowers(block, corner, to)), outline };
  });

/** Takes a corner out of the outline, while more than three remain. */
export const removeCorner = (project: Project, blockId: string, corner: number): Project =>
  reshaped(project, blockId, (block) =>
    block.outline.length <= 3 || block.outline[corner] === undefined
      ? block
      : { ...block, outline: block.outline.filter((_, index) => index !== corner) },
  );

function reshaped(project: Project, blockId: string, change: (block: Block) => Block): Project {
  return changeBlock(project, blockId, (block) => {
    const changed = change(block);
    return changed === block ? block : carryPaint(block, changed);
  });
}

/** The block with cuts at their new places; a cut that would vanish or leave the coordinate limit stays. */
function placed(block: Block, moved: readonly MovedCut[]): Block {
  const byId = new Map(moved.map((cut) => [cut.id, cut]));
  const cuts = block.cuts.map((cut) => {
    const to = byId.get(cut.id);
    return to === undefined ? cut : withEnds(cut, to);
  });
  return cuts.every((cut, index) => cut === block.cuts[index]) ? block : { ...block, cuts };
}

function withEnds(cut: Cut, ends: MovedCut): Cut {
  const from = cleanPoint(ends.from);
  const to = cleanPoint(ends.to);
  if (from === null || to === null || samePlace(from, to)) return cut;
  return samePlace(from, cut.from) && samePlace(to, cut.to) ? cut : { ...cut, from, to };
}
