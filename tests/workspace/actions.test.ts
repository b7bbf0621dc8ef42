import fc from 'fast-check';
import { beforeEach, describe, expect, it } from 'vitest';
import { addBlock, removeBlock, renameBlock } from '../../src/document/edit-block.ts';
import { addCut, moveCut, removeCuts } from '../../src/document/edit-cuts.ts';
import { renameProject } from '../../src/document/edit-project.ts';
import type { Project } from '../../src/document/project.ts';
import { toText } from '../../src/document/to-text.ts';
import {
  cancelPreview,
  dismissNotice,
  edit,
  endMerge,
  goTo,
  openBlock,
  openProjectText,
  preview,
  redo,
  replaceProject,
  select,
  undo,
} from '../../src/workspace/actions.ts';
import { planOf } from '../../src/workspace/plans.ts';
import {
  freshSession,
  redoLabel,
  session,
  shownBlock,
  shownProject,
  undoLabel,
} from '../../src/workspace/session.ts';
import { frozen, harbour, quarters } from '../document/projects.ts';

const now = () => session.getState();
const rename = (name: string) => edit('Rename', (project) => renameProject(project, name));

beforeEach(() => {
  session.setState(freshSession(harbour), true);
});

describe('another project in place of the open one', () => {
  it('is told from every change of it, and undo finds the one before again', () => {
    const { opening } = now();
    rename('Quay');
    expect(now().opening).toBe(opening);
    replaceProject('New project', { ...harbour, name: 'Lighthouse' });
    const second = now().opening;
    expect(second).not.toBe(opening);
    replaceProject('New project', { ...harbour, name: 'Ferry' });
    expect(new Set([opening, second, now().opening]).size).toBe(3);
    undo();
    expect(now().opening).toBe(second);
    undo();
    expect(now().opening).toBe(opening);
    redo();
    expect(now().opening).toBe(second);
  });
});

describe('edit', () => {
  it('records a step that undo takes back and redo does again', () => {
    rename('Quay');
    expect(now().project.name).toBe('Quay');
    expect(now().save).toBe('not-saved');
    expect(undoLabel(now())).toBe('Rename');
    undo();
    expect(now().project).toBe(harbour);
    expect([undoLabel(now()), redoLabel(now())]).toEqual([null, 'Rename']);
    redo();
    expect(now().project.name).toBe('Quay');
    expect([undoLabel(now()), redoLabel(now())]).toEqual(['Rename', null]);
  });

  it('records nothing when nothing changes', () => {
    rename('Quay');
    undo();
    rename('Harbour sampler');
    expect(now().project).toBe(harbour);
    expect(redoLabel(now())).toBe('Rename');
    expect(undoLabel(now())).toBeNull();
  });

  it('after an undo drops what could have been done again', () => {
    rename('Quay');
    undo();
    rename('Pier');
    expect(redoLabel(now())).toBeNull();
    redo();
    expect(now().project.name).toBe('Pier');
  });

  it('joins steps in a row with one key, until something else comes between', () => {
    const type = (name: string) =>
      edit('Rename', (project) => renameProject(project, name), { merge: 'name' });
    type('Q');
    type('Qu');
    type('Quay');
    expect(now().history.past).toHaveLength(1);
    edit('Rename block', (project) => renameBlock(project, 'b1', 'Tug'));
    type('Pier');
    expect(now().history.past).toHaveLength(3);
    endMerge();
    type('Pier 2');
    expect(now().history.past).toHaveLength(4);
    undo();
    undo();
    type('Pier');
    expect(now().project.name).toBe('Pier');
    for (let i = 0; i < 9; i++) undo();
    expect(now().project).toBe(harbour);
  });

  it('does not join a step that came back by redo', () => {
    const type = (name: string) =>
      edit('Rename', (project) => renameProject(project, name), { merge: 'name' });
    type('Quay');
    undo();
    redo();
    type('Pier');
    undo();
    expect(now().project.name).toBe('Quay');
  });

  it('opens and chooses what it is told to, and undo goes back to where the person was', () => {
    openBlock('b2');
    edit('Draw line', (project) => addCut(project, 'b2', { from: [0, 1], to: [12, 1] }), { select: ['c1'] });
    expect(now().selection).toEqual(['c1']);
    openBlock('b1');
    expect(now().selection).toEqual([]);
    undo();
    expect(now().blockId).toBe('b2');
    expect(now().selection).toEqual([]);
    redo();
    expect(now().blockId).toBe('b1');
  });

  it('never leaves a chosen cut or an open block that is gone', () => {
    select(['c1', 'c2', 'c9']);
    expect(now().selection).toEqual(['c1', 'c2']);
    edit('Remove cut', (project) => removeCuts(project, 'b1', ['c1']));
    expect(now().selection).toEqual(['c2']);
    edit('Remove block', (project) => removeBlock(project, 'b1'));
    expect([now().blockId, now().selection]).toEqual(['b2', []]);
    edit('Remove block', (project) => removeBlock(project, 'b2'));
    expect(now().blockId).toBeNull();
    edit('Add block', (project) => addBlock(project, { name: 'Buoy', outline: quarters.outline }), {
      openBlock: 'b1',
    });
    expect(now().blockId).toBe('b1');
    undo();
    undo();
    undo();
    expect([now().blockId, now().selection]).toEqual(['b1', ['c2']]);
  });

  it('of the last block in line opens the one before it', () => {
    openBlock('b2');
    edit('Remove block', (project) => removeBlock(project, 'b2'));
    expect(now().blockId).toBe('b1');
  });
});

describe('preview', () => {
  const move = (y: number) => (project: Project) => moveCut(project, 'b1', 'c1', { to: [12, y] });

  it('is shown, not recorded, and starts from the recorded project each time', () => {
    preview(move(7));
    preview(move(8));
    expect(shownBlock(now())?.cuts[0]?.to).toEqual([12, 8]);
    expect(now().project).toBe(harbour);
    expect(undoLabel(now())).toBeNull();
    expect(now().save).toBe('saved');
    cancelPreview();
    expect(shownProject(now())).toBe(harbour);
  });

  it('runs on where everything is as it was before it', () => {
    preview(move(7));
    preview((project) => project);
    expect(now().draft).toBe(harbour);
    cancelPreview();
    expect(now().draft).toBeNull();
  });

  it('ends with the edit', () => {
    preview(move(7));
    edit('Move line', move(8));
    expect(now().draft).toBeNull();
    expect(shownBlock(now())?.cuts[0]?.to).toEqual([12, 8]);
    expect(now().history.past).toHaveLength(1);
  });

  it.each([
    ['undo', undo],
    ['opening another block', () => openBlock('b2')],
    ['going elsewhere', () => goTo('paper')],
  ])('is dropped by %s', (_, leave) => {
    preview(move(7));
    leave();
    expect(now().draft).toBeNull();
    expect(now().project).toBe(harbour);
  });
});

describe('opening a file', () => {
  const file = toText({ ...harbour, name: 'Lagoon', blocks: [{ ...quarters, id: 'b7' }] });

  it('replaces the project when it is whole good, and can be undone', () => {
    select(['c1']);
    expect(openProjectText('lagoon.underpaper.json', file)).toBe(true);
    expect(now().project.name).toBe('Lagoon');
    expect([now().blockId, now().selection]).toEqual(['b7', []]);
    expect(now().notice?.kind).toBe('done');
    undo();
    expect(now().project).toBe(harbour);
    expect([now().blockId, now().selection]).toEqual(['b1', ['c1']]);
  });

  it.each([
    ['empty', ''],
    ['cut off', file.slice(0, 400)],
    ['of a newer version', file.replace('"version": 2', '"version": 3')],
    ['bad in one number', file.replace('[12,6]', '[12,"6"]')],
  ])('leaves everything as it was when it is %s, and says why', (_, text) => {
    rename('Quay');
    select(['c2']);
    const before = now();
    expect(openProjectText('lagoon.underpaper.json', text)).toBe(false);
    expect(now().notice).toMatchObject({ kind: 'trouble' });
    expect(now().notice?.text).toMatch(/^‘lagoon\.underpaper\.json’ was not opened\. [^\n]+\.$/);
    expect({ ...now(), notice: null }).toEqual({ ...before, notice: null });
    expect(now().project).toBe(before.project);
    dismissNotice();
    expect(now().notice).toBeNull();
  });

  it('of a project without blocks opens none', () => {
    replaceProject('New project', { ...harbour, blocks: [] });
    expect(now().blockId).toBeNull();
    undo();
    expect(now().blockId).toBe('b1');
  });
});

describe('planOf', () => {
  it('makes a plan once for each state of a block', () => {
    const first = planOf(quarters);
    expect(planOf(quarters)).toBe(first);
    rename('Quay');
    expect(planOf(quarters)).toBe(first);
    edit('Move line', (project) => moveCut(project, 'b1', 'c1', { to: [12, 7] }));
    expect(planOf(shownBlock(now())!)).not.toBe(first);
    undo();
    expect(planOf(shownBlock(now())!)).toBe(first);
  });

  it('makes it again when a colour changes, not when a name does', () => {
    const first = planOf(quarters);
    const withFabric = (change: object) => (project: Project) => ({
      ...project,
      fabrics: project.fabrics.map((fabric, i) => (i === 0 ? { ...fabric, ...change } : fabric)),
    });
    edit('Rename fabric', withFabric({ name: 'Night' }));
    expect(planOf(quarters)).toBe(first);
    edit('Change colour', withFabric({ color: '#ffffff' }));
    expect(planOf(quarters)).not.toBe(first);
  });
});

describe('any run of edits, undos and redos', () => {
  it('undone to the start is the start, redone to the end is the end', () => {
    const step = fc.oneof(
      fc
        .integer({ min: 1, max: 11 })
        .map((y) => () => edit('Draw line', (p) => addCut(p, 'b1', { from: [0, y], to: [12, y] }))),
      fc.string().map((name) => () => edit('Rename', (p) => renameProject(p, name), { merge: 'name' })),
      fc.constantFrom('b1', 'b2').map((id) => () => edit('Remove block', (p) => removeBlock(p, id))),
      fc.constantFrom('b1', 'b2').map((id) => () => openBlock(id)),
      fc
        .constantFrom<[string, () => void]>(['undo', undo], ['redo', redo], ['end merge', endMerge])
        .map(([, run]) => run),
    );
    fc.assert(
      fc.property(fc.array(step, { maxLength: 40 }), (steps) => {
        session.setState(freshSession(harbour), true);
        for (const run of steps) {
          run();
          const { project, blockId, selection } = frozen(now());
          const block = project.blocks.find(({ id }) => id === blockId);
          expect(blockId === null).toBe(block === undefined);
          for (const id of selection) expect(block?.cuts.map((cut) => cut.id)).toContain(id);
        }
        const end = now().project;
        const depth = now().history.past.length;
        for (let i = 0; i < depth; i++) undo();
        expect(now().project).toBe(harbour);
        for (let i = 0; i < depth; i++) redo();
        expect(now().project).toBe(end);
      }),
    );
  });
});
