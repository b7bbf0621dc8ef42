import type { Project } from '../document/project.ts';
import type { BoardState } from './board-state.ts';

/** Is a figure being drawn whose lines come at several places at once? Its first lines are no drawing yet. */
export const isFigureBegun = ({ tool, symmetry }: BoardState): boolean =>
  symmetry !== 'none' && (tool === 'cut' || tool === 'chain');

/** Ids of the cuts that are being drawn and not yet there; null where none is. */
export function cutsInHand(
  draft: Project | null,
  project: Project,
  blockId: string | null,
): ReadonlySet<string> | null {
  const drawn = draft?.blocks.find(({ id }) => id === blockId);
  if (drawn === undefined) return null;
  const recorded = new Set(project.blocks.find(({ id }) => id === blockId)?.cuts.map(({ id }) => id));
  const fresh = drawn.cuts.filter(({ id }) => !recorded.has(id)).map(({ id }) => id);
  return fresh.length === 0 ? null : new Set(fresh);
}
