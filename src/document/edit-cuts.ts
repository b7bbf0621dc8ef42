import type { Point } from '../geometry/point.ts';
import { carryPatches } from './carry-patches.ts';
import { changeBlock } from './find.ts';
import { freeCutIds } from './ids.ts';
import { CUTS_PER_BLOCK, cleanPoint } from './limits.ts';
import type { Cut, CutRole, Project } from './project.ts';

export interface NewCut {
  /** Inches, front view. */
  readonly from: Point;
  readonly to: Point;
  readonly role?: CutRole;
}

/**
 * Draws a cut; its id is `nextCutId(block)`. Ends are snapped to the lattice. Nothing changes when both ends
 * fall on one spot, lie beyond the coordinate limit, or the block holds as many cuts as a file may.
 */
export function addCut(project: Project, blockId: string, cut: NewCut): Project {
  return addCuts(project, blockId, [cut]);
}

/** Draws several cuts as one edit, ids in turn from `nextCutId(block)`; unusable ones are passed over. */
export function addCuts(project: Project, blockId: string, cuts: readonly NewCut[]): Project {
  return changeBlock(project, blockId, (block) => {
    const ids = freeCutIds(block);
    const added = cuts.flatMap(({ from, to, role = 'auto' }): readonly Cut[] => {
      const ends = cleanEnds(from, to);
      return ends === null ? [] : [{ id: ids.next().value, ...ends, role }];
    });
    const fitting = added.slice(0, CUTS_PER_BLOCK - block.cuts.length);
    if (fitting.length === 0) return block;
    return carryPatches(block, { ...block, cuts: [...block.cuts, ...fitting] });
  });
}

/** Moves one or both ends of a cut. Ends that would fall together, or out of bounds, change nothing. */
export function moveCut(
  project: Project,
  blockId: string,
  cutId: string,
  ends: { readonly from?: Point; readonly to?: Point },
): Project {
  return changeCuts(project, blockId, [cutId], (cut) =>
    withEnds(cut, ends.from ?? cut.from, ends.to ?? cut.to),
  );
}

/** Shifts whole cuts by a vector in inches. */
export function shiftCuts(project: Project, blockId: string, cutIds: readonly string[], by: Point): Project {
  const shifted = ([x, y]: Point): Point => [x + by[0], y + by[1]];
  return changeCuts(project, blockId, cutIds, (cut) => withEnds(cut, shifted(cut.from), shifted(cut.to)));
}

/** Takes cuts away; locked ones stay. */
export function removeCuts(project: Project, blockId: string, cutIds: readonly string[]): Project {
  const gone = new Set(cutIds);
  return changeBlock(project, blockId, (block) => {
    const cuts = block.cuts.filter((cut) => !gone.has(cut.id) || cut.locked === true);
    return cuts.length === block.cuts.length ? block : carryPatches(block, { ...block, cuts });
  });
}

/** Says what cuts must be: left to the plan (`auto`), a join, or a seam. The patches stay as they are. */
export function setCutRole(
  project: Project,
  blockId: string,
  cutIds: readonly string[],
  role: CutRole,
): Project {
  const chosen = new Set(cutIds);
  return changeBlock(project, blockId, (block) => {
    if (!block.cuts.some((cut) => chosen.has(cut.id) && cut.role !== role)) return block;
    return { ...block, cuts: block.cuts.map((cut) => (chosen.has(cut.id) ? { ...cut, role } : cut)) };
  });
}

/** Locks cuts, so that no hand moves them or takes them away, or unlocks them. */
export function setCutsLocked(
  project: Project,
  blockId: string,
  cutIds: readonly string[],
  locked: boolean,
): Project {
  const chosen = new Set(cutIds);
  return changeBlock(project, blockId, (block) => {
    if (!block.cuts.some((cut) => chosen.has(cut.id) && (cut.locked === true) !== locked)) return block;
    const cuts = block.cuts.map((cut): Cut => {
      if (!chosen.has(cut.id)) return cut;
      const { locked: _, ...rest } = cut;
      return locked ? { ...rest, locked } : rest;
    });
    return { ...block, cuts };
  });
}

function changeCuts(
  project: Project,
  blockId: string,
  cutIds: readonly string[],
  change: (cut: Cut) => Cut,
): Project {
  const chosen = new Set(cutIds);
  return changeBlock(project, blockId, (block) => {
    const cuts = block.cuts.map((cut) => (chosen.has(cut.id) ? change(cut) : cut));
    return cuts.every((cut, i) => cut === block.cuts[i]) ? block : carryPatches(block, { ...block, cuts });
  });
}

function withEnds(cut: Cut, from: Point, to: Point): Cut {
  const ends = cleanEnds(from, to);
  return ends === null || (samePoint(ends.from, cut.from) && samePoint(ends.to, cut.to))
    ? cut
    : { ...cut, ...ends };
}

function cleanEnds(from: Point, to: Point): { readonly from: Point; readonly to: Point } | null {
  const a = cleanPoint(from);
  const b = cleanPoint(to);
  return a === null || b === null || samePoint(a, b) ? null : { from: a, to: b };
}

const samePoint = (a: Point, b: Point): boolean => a[0] === b[0] && a[1] === b[1];
