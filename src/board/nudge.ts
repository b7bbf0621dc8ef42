import { edit } from '../workspace/actions.ts';
import { session } from '../workspace/session.ts';
import { board } from './board-state.ts';
import { gridStep } from './grid.ts';
import { moveCornerAttached, shiftCutsAttached } from './reshape.ts';
import { cancel, tell } from './working.ts';

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
    edit('Move cuts', (before) => shiftCutsAttached(before, blockId, selection, by), { merge });
    tell(session.getState().project === project ? 'It cannot move there.' : 'Moved.');
    return;
  }
  const corner = project.blocks.find(({ id }) => id === blockId)?.outline;
  const at = chosen?.kind === 'corner' ? corner?.[chosen.corner] : undefined;
  if (chosen?.kind !== 'corner' || at === undefined) {
    tell('Choose a cut or a corner first.');
    return;
  }
  edit(
    'Move corner',
    (before) => moveCornerAttached(before, blockId, chosen.corner, [at[0] + by[0], at[1] + by[1]]),
    { merge: `nudge ${blockId} corner ${chosen.corner}` },
  );
}
