import type { Point, Ring } from '../geometry/point.ts';
import { carryPatches } from './carry-patches.ts';
import { changeBlock } from './find.ts';
import { cleanPoint } from './limits.ts';
import { cleanOutline } from './outline.ts';
import type { Cut, Project } from './project.ts';
import { carryPicture } from './under-picture.ts';

/**
 * Gives a block another outline (inches, at least three points); cuts stay where they are and patches are carried
 * over. An outline that cannot be stored changes nothing; one that crosses itself is stored and its plan is broken.
 */
export function setOutline(project: Project, blockId: string, outline: Ring): Project {
  const ring = cleanOutline(outline);
  if (ring === null) return project;
  return changeBlock(project, blockId, (block) =>
    sameRing(block.outline, ring)
      ? block
      : carryPicture(block, carryPatches(block, { ...block, outline: ring })),
  );
}

/** Moves one corner of the outline. `corner` counts from 0 in the outline's own order. */
export function moveCorner(project: Project, blockId: string, corner: number, to: Point): Project {
  const block = project.blocks.find(({ id }) => id === blockId);
  if (block?.outline[corner] === undefined) return project;
  return setOutline(
    project,
    blockId,
    block.outline.map((point, index) => (index === corner ? to : point)),
  );
}

/**
 * Enlarges or shrinks a block with everything drawn in it and the picture under it, about its top left corner. Factors are those of width
 * and height, above 0; nothing changes when a point would lie out of bounds or a cut would have no length left.
 */
export function scaleBlock(project: Project, blockId: string, acrossBy: number, downBy = acrossBy): Project {
  if (!(acrossBy > 0) || !(downBy > 0) || (acrossBy === 1 && downBy === 1)) return project;
  return changeBlock(project, blockId, (block) => {
    const left = Math.min(...block.outline.map(([x]) => x));
    const top = Math.min(...block.outline.map(([, y]) => y));
    const scaled = ([x, y]: Point): Point => [left + (x - left) * acrossBy, top + (y - top) * downBy];
    const placed = (point: Point): Point | null => cleanPoint(scaled(point));
    const outline = block.outline.map(placed);
    const cuts = block.cuts.map((cut) => ({ ...cut, from: placed(cut.from), to: placed(cut.to) }));
    return outline.every(isPoint) && cuts.every(hasLength)
      ? carryPatches(block, { ...block, outline, cuts }, scaled)
      : block;
  });
}

const isPoint = (point: Point | null): point is Point => point !== null;

const hasLength = (cut: { readonly from: Point | null; readonly to: Point | null }): cut is Cut =>
  cut.from !== null && cut.to !== null && (cut.from[0] !== cut.to[0] || cut.from[1] !== cut.to[1]);

const sameRing = (a: Ring, b: Ring): boolean =>
  a.length === b.length && a.every(([x, y], i) => x === b[i]?.[0] && y === b[i]?.[1]);
