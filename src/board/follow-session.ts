import { session, shownBlock } from '../workspace/session.ts';
import { board, clearBoard, onEmptySheet } from './board-state.ts';
import { fitAgain, zoomToFit } from './camera-acts.ts';
import { busy, cancel, isActing, takeUp } from './tool-in-hand.ts';

/**
 * Keeps the board in step with the session: of another project nothing is begun yet, another block is fitted to the
 * sheet, and a gesture on a drawing that has since changed under it (undo) is dropped. Returns a stop function.
 */
export function followSession(): () => void {
  const stop = session.subscribe((state, before) => {
    if (state.opening !== before.opening) {
      takeUp('select');
      clearBoard();
      zoomToFit();
      return;
    }
    if (state.blockId !== before.blockId) {
      board.setState({ chosen: null, lit: null, crosshair: null, held: false, divisions: [], form: null });
      if (!isActing()) {
        cancel();
        // Whoever opens a block wants to see it, not the empty sheet of one not yet drawn.
        if (onEmptySheet(board.getState())) takeUp('select');
      }
      zoomToFit();
    } else if (shownBlock(state)?.outline !== shownBlock(before)?.outline) {
      // A hand that drags the outline would lose its place, should the sheet move under it.
      if (!busy()) fitAgain();
    }
    if (state.blockId === before.blockId && state.project !== before.project && !isActing()) {
      if (busy()) cancel();
      const corners = state.project.blocks.find(({ id }) => id === state.blockId)?.outline.length ?? 0;
      const { chosen, lit } = board.getState();
      if (chosen?.kind === 'corner' && chosen.corner >= corners) board.setState({ chosen: null });
      if (chosen?.kind === 'edge' && chosen.edge >= corners) board.setState({ chosen: null });
      if (lit !== null) board.setState({ lit: null });
    }
    if (
      state.selection !== before.selection &&
      state.selection.length > 0 &&
      board.getState().chosen !== null
    )
      board.setState({ chosen: null });
  });
  return () => {
    stop();
    // Whoever leaves the board in the middle of a gesture did not mean it.
    cancel();
  };
}
