import { IDBFactory } from 'fake-indexeddb';
import { get, set, type UseStore } from 'idb-keyval';
import { beforeEach, describe, expect, it, vi } from 'vitest';
import { openFile } from '../../src/document/file.ts';
import { toText } from '../../src/document/to-text.ts';
import { openKeep } from '../../src/workspace/keep/keep.ts';
import { lastWords } from '../../src/workspace/keep/last-words.ts';
import type { ProjectCard } from '../../src/workspace/keep/records.ts';
import { restore } from '../../src/workspace/keep/restore.ts';
import { freshSession, session } from '../../src/workspace/session.ts';
import { harbour } from '../document/projects.ts';

/** Before there were several projects the browser kept one, under this key. */
const SLOT = 'work';

let keep: UseStore;

beforeEach(() => {
  vi.stubGlobal('indexedDB', new IDBFactory());
  const held = new Map<string, string>();
  vi.stubGlobal('localStorage', {
    get length() {
      return held.size;
    },
    key: (i: number) => [...held.keys()][i] ?? null,
    getItem: (key: string) => held.get(key) ?? null,
    setItem: (key: string, text: string) => held.set(key, text),
    removeItem: (key: string) => held.delete(key),
  });
  session.setState(freshSession({ ...harbour, name: 'Demo', blocks: [] }), true);
  keep = openKeep();
});

const named = (name: string): string => toText({ ...harbour, name });

async function firstProject() {
  const id = await get<string>('open', keep);
  const card = await get<ProjectCard>(`card/${id}`, keep);
  const work = await get<{ readonly text: string }>(`project/${id}`, keep);
  const opened = openFile(work?.text ?? '');
  return { card, name: opened.ok ? opened.project.name : null };
}

describe('the one slot of earlier versions', () => {
  it('becomes the first project, open where it was, and is empty afterwards', async () => {
    const blockId = harbour.blocks.at(-1)!.id;
    await set(SLOT, { owner: 'tab', counter: 7, text: named('Quay'), blockId, place: 'paper' }, keep);
    expect((await restore(keep)).kind).toBe('restored');
    const { project, blockId: open, place } = session.getState();
    expect([project.name, open, place]).toEqual(['Quay', blockId, 'paper']);
    const { card, name } = await firstProject();
    expect(name).toBe('Quay');
    expect([card?.name, card?.blocks]).toEqual(['Quay', harbour.blocks.length]);
    expect(await get(SLOT, keep)).toBeUndefined();
    // Once and for all: the next page opens the project.
    expect((await restore(keep)).kind).toBe('restored');
    expect(session.getState().project.name).toBe('Quay');
  });

  it('gives way to the last words of the tab that wrote it, and to nobody else', async () => {
    for (const [owner, expected] of [
      ['tab', 'Quay, later'],
      ['another', 'Quay'],
    ] as const) {
      vi.stubGlobal('indexedDB', new IDBFactory());
      keep = openKeep();
      await set(SLOT, { owner: 'tab', counter: 7, text: named('Quay'), blockId: null, place: 'block' }, keep);
      lastWords.put({
        projectId: '',
        owner,
        counter: 8,
        text: named('Quay, later'),
        blockId: null,
        place: 'block',
      });
      expect((await restore(keep)).kind).toBe('restored');
      expect(session.getState().project.name).toBe(expected);
      expect([...lastWords.all()]).toEqual([]);
    }
  });

  it('is kept aside where it cannot be read, never written over', async () => {
    const torn = named('Quay').slice(0, 200);
    await set(SLOT, { owner: 'tab', counter: 7, text: torn, blockId: null, place: 'block' }, keep);
    expect((await restore(keep)).kind).toBe('damaged');
    expect(session.getState().keptAside).toEqual([torn]);
    expect(session.getState().notice?.kind).toBe('trouble');
  });
});
