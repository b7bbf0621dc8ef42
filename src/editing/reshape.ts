import { carryPatches } from '../document/carry-patches.ts';
import { changeBlock } from '../document/find.ts';
import { cleanPoint } from '../document/limits.ts';
import { cleanOutline } from '../document/outline.ts';
import type { Block, Cut, Project } from '../document/project.ts';
import { carryPicture } from '../document/under-picture.ts';
import type { Point } from '../geometry/point.ts';
import { middle } from '../geometry/ring.ts';
import { edgesOf, samePlace } from '../geometry/segments.ts';
import {
  cornerFollowers,
  type MovedCut,
  moveEndAlone,
  moveEndAttached,
  moveJointAttached,
  outlineFollowers,
  shiftAttached,
  withEdgeShifted,
} from './attached.ts';

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

/** Moves one end of a cut with the joint it is in, or alone; ends of other cuts that lay on it stay on it. */
export const moveEnd = (
  project: Project,
  blockId: string,
  cutId: string,
  end: 'from' | 'to',
  to: Point,
  alone = false,
): Project =>
  reshaped(project, blockId, (block) => {
    const cut = block.cuts.find(({ id }) => id === cutId);
    if (cut === undefined) return block;
    const move = alone ? moveEndAlone : moveJointAttached;
    return placed(block, move(block, cut, end, to));
  });

/** Cuts that hang on one another in a row longer than this are not all brought to rest. */
const MOST_ROUNDS = 12;

/**
 * Moves one end of each of several cuts, each with what ends on it. `to` tells where, from the cut as it was at first
 * and as it lies when its turn comes. A cut may carry the start of one that had its turn before, so they take turns
 * again until all lie still. Locked ones stay.
 */
export const moveEnds = (
  project: Project,
  blockId: string,
  cutIds: readonly string[],
  end: 'from' | 'to',
  to: (was: Cut, now: Cut) => Point,
): Project =>
  reshaped(project, blockId, (block) => {
    const first = new Map(block.cuts.map((cut) => [cut.id, cut]));
    let lying = block;
    for (let round = 0; round < Math.min(cutIds.length, MOST_ROUNDS); round++) {
      const before = lying;
      for (const cutId of cutIds) {
        const was = first.get(cutId);
        const now = lying.cuts.find(({ id }) => id === cutId);
        if (was !== undefined && now !== undefined)
          lying = placed(lying, moveEndAttached(lying, now, end, to(was, now)));
      }
      if (lying === before) break;
    }
    return lying;
  });

/** Moves a corner of the outline; cuts that end on its two edges stay on them. */
export const moveCornerAttached = (project: Project, blockId: string, corner: number, to: Point): Project =>
  reshaped(project, blockId, (block) => {
    const outline = cleanOutline(block.outline.map((point, index) => (index === corner ? to : point)));
    if (outline === null || block.outline[corner] === undefined) return block;
    if (samePlace(outline[corner]!, block.outline[corner])) return block;
    return { ...placed(block, cornerFollowers(block, corner, to)), outline };
  });

/**
 * Shifts an edge of the outline as a whole, by a vector in inches: its direction and the angles beside it stay, cuts
 * that end on it still reach it. Nothing changes where an edge would vanish, turn round or cross another.
 */
export const moveEdgeAttached = (project: Project, blockId: string, edge: number, by: Point): Project =>
  reshaped(project, blockId, (block) => {
    const moved = withEdgeShifted(block.outline, edge, by);
    const outline = moved === null ? null : cleanOutline(moved);
    if (outline === null || outline.every((point, index) => samePlace(point, block.outline[index]!)))
      return block;
    return { ...placed(block, outlineFollowers(block, outline)), outline };
  });

/** Puts a new corner into the middle of an edge; the outline looks the same until it is moved. */
export const addCorner = (project: Project, blockId: string, edge: number): Project =>
  reshaped(project, blockId, (block) => {
    const segment = edgesOf(block.outline)[edge];
    if (segment === undefined) return block;
    const outline = cleanOutline(block.outline.toSpliced(edge + 1, 0, middle(...segment)));
    return outline === null ? block : { ...block, outline };
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
    return changed === block ? block : carryPicture(block, carryPatches(block, changed));
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
