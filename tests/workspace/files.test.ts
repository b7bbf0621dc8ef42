import { beforeEach, describe, expect, it } from 'vitest';
import { toText } from '../../src/document/to-text.ts';
import { openProjectFile } from '../../src/workspace/files.ts';
import { freshSession, session } from '../../src/workspace/session.ts';
import { harbour } from '../document/projects.ts';

const now = () => session.getState();

beforeEach(() => {
  session.setState(freshSession(harbour), true);
});

describe('openProjectFile', () => {
  it('opens a good file', async () => {
    const file = new File([toText({ ...harbour, name: 'Lagoon' })], 'lagoon.underpaper.json');
    expect(await openProjectFile(file)).toBe(true);
    expect(now().project.name).toBe('Lagoon');
  });

  it('refuses 200 MB by its size, without reading a byte', async () => {
    let isRead = false;
    const file = {
      name: 'whale.json',
      size: 200_000_000,
      text: () => {
        isRead = true;
        return Promise.resolve('');
      },
    };
    expect(await openProjectFile(file)).toBe(false);
    expect(isRead).toBe(false);
    expect(now().project).toBe(harbour);
    expect(now().notice).toEqual({
      kind: 'trouble',
      text: '‘whale.json’ was not opened. The file is 200 MB; files of up to 50 MB can be opened.',
    });
  });

  it('says so when the browser cannot read it', async () => {
    const file = {
      name: 'folder',
      size: 0,
      text: () => Promise.reject(new DOMException('', 'NotReadableError')),
    };
    expect(await openProjectFile(file)).toBe(false);
    expect(now().project).toBe(harbour);
    expect(now().notice?.text).toMatch(/^‘folder’ was not opened\. The browser could not read it/);
  });
});
