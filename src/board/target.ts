import type { Target } from '../editing/forms/form.ts';
import { holdsPoint } from '../geometry/inner-spot.ts';
import { planOf } from '../workspace/plans.ts';
import { session } from '../workspace/session.ts';
import { board, gridInUse, onEmptySheet } from './board-state.ts';

/** What forms and commands work on at this moment: the open block and what is chosen in it; null without a block. */
export function targetNow(): Target | null {
  const { project, blockId, selection } = session.getState();
  const state = board.getState();
  const block = project.blocks.find(({ id }) => id === blockId);
  if (block === undefined || onEmptySheet(state)) return null;
  const { chosen } = state;
  return {
    block,
    unit: project.unit,
    cuts: block.cuts.filter(({ id }) => selection.includes(id)),
    chosen,
    patch:
      chosen?.kind === 'patch'
        ? (planOf(block).patches.find((one) => holdsPoint(one, chosen.at)) ?? null)
        : null,
    gridIn: gridInUse(project),
    crosshair: state.crosshair?.at ?? null,
  };
}
