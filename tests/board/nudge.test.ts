import { beforeEach, describe, expect, it } from 'vitest';
import { board } from '../../src/board/board-state.ts';
import { nudge } from '../../src/board/nudge.ts';
import { select, undo } from '../../src/workspace/actions.ts';
import { freshSession, session } from '../../src/workspace/session.ts';
import { projectWith, WINDOW } from '../editing/window.ts';

const block = () => session.getState().project.blocks[0]!;

beforeEach(() => {
  session.setState(freshSession(projectWith(WINDOW)), true);
  board.setState({ chosen: null, tool: 'select' });
});

describe('keys that move what is chosen', () => {
  it('move a cut by the grid or a quarter of it, all in one step', () => {
    select(['c1']);
    nudge(0, 1, 'grid');
    nudge(0, 1, 'grid');
    nudge(0, -1, 'finer');
    expect(block().cuts[0]).toMatchObject({ from: [0, 4.4375], to: [12, 4.4375] });
    undo();
    expect(block()).toBe(WINDOW);
  });

  it('move a corner, and what ends on its edges follows', () => {
    board.setState({ chosen: { kind: 'corner', corner: 1 } });
    for (let step = 0; step < 4; step++) nudge(1, 0, 'grid');
    expect(block().outline[1]).toEqual([13, 0]);
    expect(block().cuts[0]!.to[0]).toBeCloseTo(13 - 4 / 12, 3);
  });
});

describe('keys that move an edge', () => {
  it('move it as a whole, and say why it does not go along itself', () => {
    board.setState({ chosen: { kind: 'edge', edge: 1 } });
    for (let step = 0; step < 4; step++) nudge(1, 0, 'grid');
    expect(block().outline).toEqual([
      [0, 0],
      [13, 0],
      [13, 12],
      [0, 12],
    ]);
    expect(block().cuts[0]!.to).toEqual([13, 4]);
    expect(board.getState().announced).toBe('Right edge moved.');
    nudge(0, 1, 'grid');
    expect(block().outline[1]).toEqual([13, 0]);
    expect(board.getState().announced).toBe('An edge moves to its sides, not along itself.');
    undo();
    expect(block()).toBe(WINDOW);
  });

  it('stop before nothing is left of the block', () => {
    board.setState({ chosen: { kind: 'edge', edge: 1 } });
    for (let step = 0; step < 60; step++) nudge(-1, 0, 'grid');
    expect(block().outline[1]).toEqual([0.25, 0]);
    expect(board.getState().announced).toBe('It cannot move there.');
  });
});
