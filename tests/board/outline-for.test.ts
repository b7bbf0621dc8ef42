import { beforeEach, expect, it } from 'vitest';
import { board, onEmptySheet } from '../../src/board/board-state.ts';
import { takeUp } from '../../src/board/tool-in-hand.ts';
import { freshSession, session } from '../../src/workspace/session.ts';
import { projectWith, WINDOW } from '../editing/window.ts';

beforeEach(() => {
  session.setState(freshSession(projectWith(WINDOW)), true);
  takeUp('select');
});

it('on a block with cuts the outline tool begins a new block, and says so', () => {
  takeUp('outline');
  expect(board.getState().outlineFor).toEqual({ kind: 'new-block', name: 'Block 2' });
  expect(board.getState().announced).toBe(
    'A new block, Block 2. Set its corners; Keeper’s window stays as it is.',
  );
  expect(onEmptySheet(board.getState())).toBe(true);
});

it('on a block without cuts it draws that one’s outline', () => {
  session.setState(freshSession(projectWith({ ...WINDOW, cuts: [] })), true);
  takeUp('outline');
  expect(board.getState().outlineFor).toEqual({ kind: 'this-block' });
});
