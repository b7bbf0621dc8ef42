import { beforeEach, describe, expect, it, vi } from 'vitest';
import { board } from '../../src/board/board-state.ts';
import { nudge } from '../../src/board/nudge.ts';
import { commandsNow, EVERYWHERE, runByKey } from '../../src/views/command-list.ts';
import { PLACES, placeNamed } from '../../src/views/places.ts';
import { goTo, select, undo } from '../../src/workspace/actions.ts';
import type { KeyPress } from '../../src/workspace/command.ts';
import { letterKeys } from '../../src/workspace/letter-keys.ts';
import { freshSession, session } from '../../src/workspace/session.ts';
import { projectWith, WINDOW } from '../editing/window.ts';

const now = () => session.getState();
const block = () => now().project.blocks[0]!;
const press = (key: string, held: Partial<KeyPress> = {}): KeyPress => ({
  key,
  code: '',
  ctrlKey: false,
  metaKey: false,
  shiftKey: false,
  altKey: false,
  ...held,
});
const TYPING = { isTyping: true, isAtDrawing: false };
const ELSEWHERE = { isTyping: false, isAtDrawing: false };
const AT_DRAWING = { isTyping: false, isAtDrawing: true };
const onBoard = (key: string, held: Partial<KeyPress> = {}) => runByKey(press(key, held), AT_DRAWING);

// Keys are written as the machine's own menus write them.
vi.stubGlobal('navigator', { platform: 'Linux', userAgent: '' });

beforeEach(() => {
  session.setState(freshSession(projectWith(WINDOW)), true);
  board.setState({ chosen: null, tool: 'select' });
});

describe('the table of places', () => {
  it('has every name, label and key once', () => {
    for (const part of ['name', 'label', 'key'] as const)
      expect(new Set(PLACES.map((place) => place[part])).size).toBe(PLACES.length);
  });

  it('has in no place two commands of a name or a key, those of the whole app included', () => {
    for (const { commands } of PLACES) {
      expect(new Set(commands.map(({ name }) => name)).size).toBe(commands.length);
      const keys = [...EVERYWHERE, ...commands].flatMap((one) => one.keys).map((key) => key.toLowerCase());
      expect(new Set(keys).size).toBe(keys.length);
    }
  });

  it('opens the first place for a name that none has', () => {
    expect(placeNamed('paper').label).toBe('Paper');
    expect(placeNamed('harbour')).toBe(PLACES[0]);
  });

  it('is gone through by keys, while typing too, and by the palette', () => {
    expect(runByKey(press(placeNamed('paper').key.slice(-1), { altKey: true }), TYPING)).toBe(true);
    expect(now().place).toBe('paper');
    expect(commandsNow().map(({ label }) => label)).toContain('Go to Block');
    expect(commandsNow().map(({ label }) => label)).not.toContain('Go to Paper');
    // Alt may write another sign than the key bears.
    expect(onBoard('¡', { altKey: true, code: 'Digit1' })).toBe(true);
    expect(now().place).toBe('block');
  });
});

describe('commands of the board', () => {
  it('lock, choose all, and leave keys alone that have nothing to work on', () => {
    expect(onBoard('l')).toBe(false);
    expect(onBoard('a', { ctrlKey: true })).toBe(true);
    expect(now().selection).toEqual(['c1']);
    expect(onBoard('l')).toBe(true);
    expect(block().cuts[0]!.locked).toBe(true);
    nudge(0, 1, 'grid');
    expect(block().cuts[0]!.from).toEqual([0, 4]);
    expect(onBoard('l')).toBe(true);
    expect(block()).toEqual(WINDOW);
    // Pasting comes with the browser's own event, which knows what the clipboard holds.
    expect(onBoard('v', { ctrlKey: true })).toBe(false);
  });

  it('delete chosen cuts as one step, and the key works nowhere else', () => {
    expect(onBoard('Delete')).toBe(false);
    select(['c1']);
    goTo('paper');
    expect(onBoard('Delete')).toBe(false);
    goTo('block');
    expect(runByKey(press('Backspace'), TYPING)).toBe(false);
    expect(onBoard('Backspace')).toBe(true);
    expect(block().cuts).toEqual([]);
    undo();
    expect(block()).toEqual(WINDOW);
    expect(now().selection).toEqual(['c1']);
  });

  it('are not run while typing, nor elsewhere', () => {
    expect(runByKey(press('c'), TYPING)).toBe(false);
    expect(board.getState().tool).toBe('select');
    goTo('paper');
    expect(onBoard('c')).toBe(false);
    expect(commandsNow().map(({ label }) => label)).not.toContain('Fit the sheet');
    goTo('block');
    expect(onBoard('c')).toBe(true);
    expect(board.getState().tool).toBe('cut');
  });

  it('have letters only at the drawing, and none where they are switched off; other keys work on', () => {
    select(['c1']);
    expect(runByKey(press('c'), ELSEWHERE)).toBe(false);
    expect(board.getState().tool).toBe('select');
    expect(runByKey(press('Escape'), ELSEWHERE)).toBe(true);
    expect(now().selection).toEqual([]);
    letterKeys.setState({ isOn: false });
    expect(onBoard('c')).toBe(false);
    expect(onBoard('?')).toBe(false);
    expect(commandsNow().filter(({ key }) => key.length === 1)).toEqual([]);
    expect(onBoard('a', { ctrlKey: true })).toBe(true);
    letterKeys.setState({ isOn: true });
    expect(onBoard('c')).toBe(true);
    expect(board.getState().tool).toBe('cut');
  });

  it('of the whole app use their keys up even with nothing to do, but not those of a field', () => {
    expect(onBoard('z', { ctrlKey: true })).toBe(true);
    expect(runByKey(press('z', { ctrlKey: true }), TYPING)).toBe(false);
  });
});
