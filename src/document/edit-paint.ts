import { type Area, holdsPoint, innerSpot } from '../geometry/inner-spot.ts';
import type { Point } from '../geometry/point.ts';
import { changeBlock } from './find.ts';
import { patchesOf } from './patches-of.ts';
import type { Paint, Project } from './project.ts';

/**
 * Lays a fabric on the patch that holds the point `at` (inches, front view), in place of what lay there; null
 * takes the fabric off. Nothing changes when no patch holds the point or the project has no such fabric.
 */
export function paintPatch(project: Project, blockId: string, at: Point, fabricId: string | null): Project {
  return paintPatches(project, blockId, [at], fabricId);
}

/** Lays one fabric on every patch that holds one of the points. */
export function paintPatches(
  project: Project,
  blockId: string,
  at: readonly Point[],
  fabricId: string | null,
): Project {
  if (fabricId !== null && !project.fabrics.some(({ id }) => id === fabricId)) return project;
  return changeBlock(project, blockId, (block) => {
    const patches = patchesOf(block).filter((patch) => at.some((point) => holdsPoint(patch, point)));
    let paint = block.paint;
    for (const patch of patches) paint = laidOnPatch(paint, patch, fabricId);
    return paint === block.paint ? block : { ...block, paint };
  });
}

/** The paint with one fabric, or none, on a patch. New paint takes the place of what showed there, the last laid. */
function laidOnPatch(paint: readonly Paint[], patch: Area, fabricId: string | null): readonly Paint[] {
  const lies = paint.filter((one) => holdsPoint(patch, one.at));
  const shown = lies.at(-1);
  const hidden = lies.slice(0, -1);
  if (fabricId === null) return shown === undefined ? paint : paint.filter((one) => !lies.includes(one));
  if (shown === undefined) return [...paint, { at: innerSpot(patch), fabric: fabricId }];
  if (shown.fabric === fabricId && hidden.length === 0) return paint;
  const fresh: Paint = { ...shown, at: innerSpot(patch), fabric: fabricId };
  return paint.filter((one) => !hidden.includes(one)).map((one) => (one === shown ? fresh : one));
}
