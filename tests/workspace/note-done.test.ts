import { beforeEach, describe, expect, it } from 'vitest';
import { noteCut } from '../../src/document/edit-cloth.ts';
import { EMPTY_PROJECT } from '../../src/document/project.ts';
import { edit, noteDone, redo, undo } from '../../src/workspace/actions.ts';
import { freshSession, nextOpening, session } from '../../src/workspace/session.ts';

const rename = (name: string): void => edit('Rename', (project) => ({ ...project, name }));
const done = (): readonly string[] => session.getState().project.cutting?.done ?? [];

describe('what hands have done', () => {
  beforeEach(() => session.setState(freshSession(EMPTY_PROJECT)));

  it('is no step of the history, and undoing a drawing leaves it', () => {
    rename('One');
    noteDone((project) => noteCut(project, ['b1/p1/1 3 4'], true));
    expect(session.getState().history.past).toHaveLength(1);
    expect(session.getState().save).toBe('not-saved');
    undo();
    expect(session.getState().project.name).toBe(EMPTY_PROJECT.name);
    expect(done()).toEqual(['b1/p1/1 3 4']);
    noteDone((project) => noteCut(project, ['b1/p2/1 2 2'], true));
    redo();
    expect(session.getState().project.name).toBe('One');
    expect(done()).toHaveLength(2);
  });

  it('of another project is not touched', () => {
    edit('Open', () => ({ ...EMPTY_PROJECT, name: 'Other' }), { opening: nextOpening() });
    noteDone((project) => noteCut(project, ['b1/p1/1 3 4'], true));
    undo();
    expect(done()).toEqual([]);
    redo();
    expect(done()).toHaveLength(1);
  });
});
