import { afterEach, beforeEach, expect, it } from 'vitest';
import { openForm } from '../../src/board/board-acts.ts';
import { board } from '../../src/board/board-state.ts';
import { followSession } from '../../src/board/follow-session.ts';
import { takeUp } from '../../src/board/tool-in-hand.ts';
import { rehearsal, showStep } from '../../src/views/rehearsal/rehearsal-state.ts';
import { replaceProject, undo } from '../../src/workspace/actions.ts';
import { askFor, dialogs } from '../../src/workspace/dialogs.ts';
import { freshSession, session } from '../../src/workspace/session.ts';
import { projectWith, WINDOW } from '../editing/window.ts';

let stop: () => void;

beforeEach(() => {
  session.setState(freshSession(projectWith(WINDOW)), true);
  stop = followSession();
});
afterEach(() => stop());

it('of a project that takes the place of another nothing is begun, though its blocks have the same ids', () => {
  takeUp('outline', { kind: 'new-block', name: 'Buoy' });
  board.setState({
    chosen: { kind: 'corner', corner: 3 },
    divisions: [[1, 2]],
    fabricId: 'f2',
    symmetry: 'quarter',
    gridKey: 'eighth',
    valueView: true,
  });
  openForm('rays');
  showStep(3);
  askFor({ kind: 'recolour' });

  replaceProject('New project', projectWith({ ...WINDOW, name: 'Ferry' }));
  expect(session.getState().blockId).toBe('b1');
  expect(board.getState()).toMatchObject({
    tool: 'select',
    outlineFor: { kind: 'this-block' },
    chosen: null,
    divisions: [],
    fabricId: null,
    form: null,
    symmetry: 'none',
    fitted: true,
  });
  // How one likes to look and draw is no part of a project.
  expect(board.getState()).toMatchObject({ gridKey: 'eighth', valueView: true });
  expect(rehearsal.getState().step).toBeNull();
  expect(dialogs.getState().asked).toBeNull();

  board.setState({ chosen: { kind: 'corner', corner: 1 } });
  undo();
  expect(board.getState().chosen).toBeNull();
});
