import type { Block } from '../document/project.ts';
import { gridStep } from '../editing/grid.ts';
import { moveCornerAttached, moveEdgeAttached, shiftCutsAttached } from '../editing/reshape.ts';
import { edgeName } from '../editing/whereabouts.ts';
import { capital } from '../editing/words.ts';
import { TOUCH_IN } from '../geometry/lattice.ts';
import type { Point, Segment } from '../geometry/point.ts';
import { edgesOf } from '../geometry/segments.ts';
import { phrase } from '../words/phrase.ts';
import { session } from '../workspace/session.ts';
import { editEverywhere } from './board-acts.ts';
import { announce, board } from './board-state.ts';
import { cancel } from './tool-in-hand.ts';

/** Moves what is chosen by one step of the grid, or a quarter of one; presses in a row are one step of the history. */
export function nudge(dx: number, dy: number, size: 'grid' | 'finer'): void {
  const { project, blockId, selection } = session.getState();
  const { chosen, gridKey } = board.getState();
  if (blockId === null) return;
  cancel();
  const { stepIn } = gridStep(project.unit, gridKey);
  const step = size === 'finer' ? stepIn / 4 : stepIn;
  const by = [dx * step, dy * step] as const;
  if (selection.length > 0) {
    const merge = `nudge ${blockId} ${selection.join(' ')}`;
    editEverywhere(phrase('Move lines'), (before) => shiftCutsAttached(before, blockId, selection, by), {
      merge,
    });
    announce(session.getState().project === project ? phrase('It cannot move there.') : phrase('Moved.'));
    return;
  }
  const block = project.blocks.find(({ id }) => id === blockId);
  const edge = chosen?.kind === 'edge' ? edgesOf(block?.outline ?? [])[chosen.edge] : undefined;
  if (block !== undefined && chosen?.kind === 'edge' && edge !== undefined) {
    nudgeEdge(block, chosen.edge, edge, by);
    return;
  }
  const at = chosen?.kind === 'corner' ? block?.outline[chosen.corner] : undefined;
  if (chosen?.kind !== 'corner' || at === undefined) {
    announce(phrase('Choose a line, a corner or an edge first.'));
    return;
  }
  editEverywhere(
    phrase('Move corner'),
    (before) => moveCornerAttached(before, blockId, chosen.corner, [at[0] + by[0], at[1] + by[1]]),
    { merge: `nudge ${blockId} corner ${chosen.corner}` },
  );
}

function nudgeEdge(block: Block, index: number, [from, to]: Segment, by: Point): void {
  const turn = (to[0] - from[0]) * by[1] - (to[1] - from[1]) * by[0];
  if (Math.abs(turn) <= TOUCH_IN * Math.hypot(...by)) {
    announce(phrase('An edge moves to its sides, not along itself.'));
    return;
  }
  const { project } = session.getState();
  editEverywhere(phrase('Move edge'), (before) => moveEdgeAttached(before, block.id, index, by), {
    merge: `nudge ${block.id} edge ${index}`,
  });
  announce(
    session.getState().project === project
      ? phrase('It cannot move there.')
      : phrase('{edgeName} moved.', { edgeName: capital(edgeName(block, index)) }),
  );
}
