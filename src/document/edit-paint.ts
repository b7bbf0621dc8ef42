import { holdsPoint } from '../geometry/inner-spot.ts';
import type { Point } from '../geometry/point.ts';
import { completed } from './carry-patches.ts';
import { changeBlock } from './find.ts';
import { knownDrawing } from './known-drawing.ts';
import type { PatchEntry, Project } from './project.ts';

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
    const fresh = new Set<string>();
    for (const { area, entry } of knownDrawing(block)?.patches ?? []) {
      const isMeant = (entry.fabric ?? null) !== fabricId && at.some((point) => holdsPoint(area, point));
      if (isMeant) fresh.add(entry.id);
    }
    if (fresh.size === 0) return block;
    const whole = completed(block);
    const patches = whole.patches.map((entry) => (fresh.has(entry.id) ? relaidWith(entry, fabricId) : entry));
    return { ...whole, patches };
  });
}

/** The entry of a patch with another fabric on it, or with none. */
export function relaidWith({ fabric: _, ...bare }: PatchEntry, fabricId: string | null): PatchEntry {
  return fabricId === null ? bare : { ...bare, fabric: fabricId };
}
