import { beforeEach, describe, expect, it } from 'vitest';
import { commandForKey, type KeyPress, keyText } from '../../src/workspace/command.ts';
import { COMMANDS, command, freeBlockName, runCommand } from '../../src/workspace/commands.ts';
import { closeDialog, dialogs } from '../../src/workspace/dialogs.ts';
import { freshSession, session } from '../../src/workspace/session.ts';
import { blockOf, harbour, quarters } from '../document/projects.ts';

const now = () => session.getState();
const press = (key: string, held: Partial<KeyPress> = {}): KeyPress => ({
  key,
  code: '',
  ctrlKey: false,
  metaKey: false,
  shiftKey: false,
  altKey: false,
  ...held,
});

beforeEach(() => {
  session.setState(freshSession(harbour), true);
});

describe('the list of commands', () => {
  it('has every name and every key once', () => {
    const names = COMMANDS.map(({ name }) => name);
    const keys = COMMANDS.flatMap(({ keys }) => keys);
    expect(new Set(names).size).toBe(names.length);
    expect(new Set(keys).size).toBe(keys.length);
    expect(() => command('sail' as 'undo')).toThrow();
  });

  it('is found by key, Ctrl or Cmd alike, and never with a key too many', () => {
    const named = (key: KeyPress) => commandForKey(COMMANDS, key)?.name ?? null;
    expect(named(press('z', { ctrlKey: true }))).toBe('undo');
    expect(named(press('z', { metaKey: true }))).toBe('undo');
    expect(named(press('Z', { metaKey: true, shiftKey: true }))).toBe('redo');
    expect(named(press('y', { ctrlKey: true }))).toBe('redo');
    expect(named(press('∫', { metaKey: true, altKey: true, code: 'KeyB' }))).toBe('add-block');
    expect(named(press('z'))).toBeNull();
    expect(named(press('z', { ctrlKey: true, altKey: true }))).toBeNull();
    expect(named(press('d', { ctrlKey: true, shiftKey: true }))).toBeNull();
  });

  it('shows keys as each system writes them', () => {
    expect(keyText('Mod+Shift+z', false)).toBe('Ctrl+Shift+Z');
    expect(keyText('Mod+Shift+z', true)).toBe('⇧⌘Z');
    expect(keyText('Mod+Alt+n', false)).toBe('Ctrl+Alt+N');
    expect(keyText('Delete', true)).toBe('Delete');
    expect(keyText('+', true)).toBe('+');
  });

  it('undo and redo say what they would do, and are off when there is nothing', () => {
    expect(command('undo').label(now())).toBe('Undo');
    expect(command('undo').enabled(now())).toBe(false);
    runCommand('add-block');
    expect(command('undo').label(now())).toBe('Undo add block');
    runCommand('undo');
    expect(command('redo').label(now())).toBe('Redo add block');
    runCommand('redo');
    expect(now().project.blocks).toHaveLength(3);
  });
});

describe('commands', () => {
  it('add a block of a common size in the project’s unit, under a free name, and open it', () => {
    runCommand('add-block');
    expect(now().blockId).toBe('b3');
    expect(blockOf(now().project, 'b3')).toMatchObject({
      name: 'Block 3',
      outline: [
        [0, 0],
        [6, 0],
        [6, 6],
        [0, 6],
      ],
    });
    session.setState(freshSession({ ...harbour, unit: 'mm', blocks: [] }), true);
    runCommand('add-block');
    expect(now().blockId).toBe('b1');
    expect(blockOf(now().project).outline[2]![0] * 25.4).toBeCloseTo(150, 3);
  });

  it('find a free name', () => {
    const named = (...names: string[]) => ({
      ...harbour,
      blocks: names.map((name) => ({ ...quarters, name })),
    });
    expect(freeBlockName(named())).toBe('Block 1');
    expect(freeBlockName(named('Block 2', 'Gull'))).toBe('Block 3');
    expect(freeBlockName(named('Block 3', 'Block 4'))).toBe('Block 5');
  });

  it('duplicate, then remove the open block', () => {
    runCommand('duplicate-block');
    expect(now().blockId).toBe('b3');
    expect(now().project.blocks.map(({ id }) => id)).toEqual(['b1', 'b3', 'b2']);
    runCommand('remove-block');
    expect(now().blockId).toBe('b2');
    runCommand('remove-block');
    runCommand('remove-block');
    expect(now().project.blocks).toEqual([]);
    expect(command('remove-block').enabled(now())).toBe(false);
    expect(command('duplicate-block').enabled(now())).toBe(false);
    runCommand('remove-block');
    for (let i = 0; i < 4; i++) runCommand('undo');
    expect(now().project).toBe(harbour);
  });

  it('replace or swap fabrics when there are two, and a block to see them in', () => {
    const { enabled, run } = command('recolour');
    expect(enabled(now())).toBe(true);
    void run();
    expect(dialogs.getState().asked).toEqual({ kind: 'recolour' });
    closeDialog();
    session.setState(freshSession({ ...harbour, fabrics: harbour.fabrics.slice(0, 1) }), true);
    expect(enabled(now())).toBe(false);
    session.setState(freshSession({ ...harbour, blocks: [] }), true);
    expect(enabled(now())).toBe(false);
  });

  it('begin a new project, undoably', () => {
    runCommand('new-project');
    expect(now().project).toMatchObject({ name: 'Untitled', blocks: [] });
    runCommand('undo');
    expect(now().project).toBe(harbour);
  });
});
