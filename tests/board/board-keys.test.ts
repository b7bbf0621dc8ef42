import { beforeEach, expect, it } from 'vitest';
import { BOARD_KEYS } from '../../src/board/board-keys.ts';
import { board } from '../../src/board/board-state.ts';
import { select } from '../../src/workspace/actions.ts';
import { type KeyPress, takeKey } from '../../src/workspace/command.ts';
import { freshSession, session } from '../../src/workspace/session.ts';
import { projectWith, WINDOW } from '../editing/window.ts';

const take = (key: string, held: Partial<KeyPress> = {}): boolean =>
  takeKey(
    BOARD_KEYS,
    { key, code: '', ctrlKey: false, metaKey: false, shiftKey: false, altKey: false, ...held },
    undefined,
  );

beforeEach(() => {
  session.setState(freshSession(projectWith(WINDOW)), true);
  board.setState({ chosen: null, crosshair: null, tool: 'select' });
});

it('Esc lets go of what is chosen, cuts and corners alike, and then is free for others', () => {
  select(['c1']);
  expect(take('Escape')).toBe(true);
  expect(session.getState().selection).toEqual([]);
  board.setState({ chosen: { kind: 'corner', corner: 1 } });
  expect(take('Escape')).toBe(true);
  expect(board.getState().chosen).toBeNull();
  expect(take('Escape')).toBe(false);
});

it('with keys of the whole app held, letters and arrows are left to it', () => {
  for (const key of ['n', 'Enter', 'ArrowLeft', 'Backspace'])
    expect(take(key, { metaKey: true })).toBe(false);
  expect(take('n', { ctrlKey: true })).toBe(false);
});
