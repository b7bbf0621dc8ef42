import { IDBFactory } from 'fake-indexeddb';
import { get, set, type UseStore } from 'idb-keyval';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { renameProject } from '../../src/document/edit-project.ts';
import { openFile } from '../../src/document/file.ts';
import { toText } from '../../src/document/to-text.ts';
import { edit, goTo, openBlock, preview, redo, setTheme, undo } from '../../src/workspace/actions.ts';
import { type Autosave, openKeep, restore, startAutosave } from '../../src/workspace/autosave.ts';
import { freshSession, session } from '../../src/workspace/session.ts';
import { harbour } from '../document/projects.ts';

const now = () => session.getState();
const rename = (name: string) => edit('Rename', (project) => renameProject(project, name));

let keep: UseStore;
let running: Autosave[] = [];
const start = (store = keep, page = new EventTarget()): Autosave => {
  const autosave = startAutosave(store, page);
  running.push(autosave);
  return autosave;
};

/** The project as a page opened later finds it. */
async function keptProject() {
  const work = await get<{ text: string }>('work', openKeep());
  if (work === undefined) return null;
  const opened = openFile(work.text);
  if (!opened.ok) throw new Error(opened.error.message);
  return opened.project;
}

/** A new page: nothing but the browser's storage is left of the old one. */
function reload(): void {
  for (const autosave of running) autosave.stop();
  running = [];
  session.setState(freshSession({ ...harbour, name: 'Demo', blocks: [] }), true);
  keep = openKeep();
}

/** What a page's local storage does, as far as it is used. */
class LocalStorage {
  private readonly items = new Map<string, string>();
  readonly getItem = (key: string) => this.items.get(key) ?? null;
  readonly setItem = (key: string, value: string) => void this.items.set(key, value);
  readonly removeItem = (key: string) => void this.items.delete(key);
  readonly size = () => this.items.size;
}

let local: LocalStorage;

beforeEach(() => {
  vi.stubGlobal('indexedDB', new IDBFactory());
  local = new LocalStorage();
  vi.stubGlobal('localStorage', local);
  session.setState(freshSession(harbour), true);
  keep = openKeep();
});

afterEach(() => {
  for (const autosave of running) autosave.stop();
  running = [];
  vi.unstubAllGlobals();
});

describe('autosave', () => {
  it('keeps the work a moment after a change, and brings it back', async () => {
    start();
    await vi.waitFor(() => expect(now().save).toBe('saved'));
    rename('Quay');
    openBlock('b2');
    goTo('paper');
    expect(now().save).toBe('saving');
    await vi.waitFor(() => expect(now().save).toBe('saved'), 3_000);
    expect(await keptProject()).toEqual({ ...harbour, name: 'Quay' });

    reload();
    expect(await restore(keep)).toEqual({ kind: 'restored' });
    expect(now()).toMatchObject({
      project: { ...harbour, name: 'Quay' },
      blockId: 'b2',
      place: 'paper',
      save: 'saved',
    });
    expect(now().history.past).toEqual([]);
    expect(now().notice).toBeNull();
  });

  it('says that work is kept when what was undone is done again before it was written', async () => {
    const autosave = start();
    rename('Harbour at night');
    await autosave.flush();
    undo();
    redo();
    expect(now().save).toBe('saving');
    await autosave.flush();
    expect(now().save).toBe('saved');
  });

  it('keeps undone work as undone', async () => {
    const autosave = start();
    rename('Quay');
    await autosave.flush();
    undo();
    await autosave.flush();
    expect(await keptProject()).toEqual(harbour);
  });

  it('never keeps what a running gesture would leave', async () => {
    const autosave = start();
    preview((project) => renameProject(project, 'Draft'));
    await autosave.flush();
    expect((await keptProject())?.name).toBe('Harbour sampler');
  });

  it.each(['pagehide', 'visibilitychange'])('keeps the last change at once on %s', async (event) => {
    const page = new EventTarget();
    const autosave = start(keep, page);
    await autosave.flush();
    rename('Quay');
    page.dispatchEvent(new Event(event));
    // Well before the quiet time is over.
    await vi.waitFor(async () => expect((await keptProject())?.name).toBe('Quay'), {
      timeout: 350,
      interval: 10,
    });
  });

  it('writes the later of two changes last, however they fall', async () => {
    const autosave = start();
    const flushed: Promise<void>[] = [];
    for (let i = 1; i <= 30; i++) {
      rename(`Quay ${i}`);
      if (i % 3 === 0) flushed.push(autosave.flush());
    }
    await Promise.all(flushed);
    expect(now().save).toBe('saved');
    expect((await keptProject())?.name).toBe('Quay 30');
  });

  it('remembers the theme apart from the work', async () => {
    start();
    setTheme('dark');
    await vi.waitFor(async () => expect(await get('theme', openKeep())).toBe('dark'));
    reload();
    await restore(keep);
    expect(now().theme).toBe('dark');
  });
});

describe('a page that is gone before the database has written', () => {
  /** A page whose database never gets to writing again. */
  const leaveAtOnce = async (event = 'pagehide') => {
    let isGone = false;
    const page = new EventTarget();
    const autosave = start(
      (mode, run) => (isGone && mode === 'readwrite' ? new Promise(() => undefined) : keep(mode, run)),
      page,
    );
    await autosave.flush();
    isGone = true;
    rename('Quay');
    page.dispatchEvent(new Event(event));
  };

  it.each(['pagehide', 'visibilitychange'])('has left its last words on %s', async (event) => {
    await leaveAtOnce(event);
    reload();
    expect(await restore(keep)).toEqual({ kind: 'restored' });
    expect(now().project).toEqual({ ...harbour, name: 'Quay' });
    // They go once the database has them.
    expect(local.size()).toBe(1);
    await start().flush();
    expect(local.size()).toBe(0);
    expect((await keptProject())?.name).toBe('Quay');
  });

  it('loses no more than it must when even that is forbidden', async () => {
    vi.stubGlobal('localStorage', undefined);
    await leaveAtOnce();
    reload();
    expect(await restore(keep)).toEqual({ kind: 'restored' });
    expect(now().project).toEqual(harbour);
  });

  it('falls back on the database when its last words are damaged', async () => {
    await leaveAtOnce();
    local.setItem('underpaper last words', '{"text":"{"}');
    reload();
    expect(await restore(keep)).toEqual({ kind: 'restored' });
    expect(now().project).toEqual(harbour);
  });

  it('leaves none when all is kept', async () => {
    const page = new EventTarget();
    await start(keep, page).flush();
    page.dispatchEvent(new Event('pagehide'));
    expect(local.size()).toBe(0);
  });
});

describe('two windows', () => {
  it('the one opened last keeps its work; the other is told and overwrites nothing', async () => {
    const first = start();
    await first.flush();
    const second = start(openKeep());
    await second.flush();
    second.stop();
    rename('From the first window');
    await first.flush();
    expect(now().save).toBe('not-saved');
    expect(now().notice).toMatchObject({ kind: 'trouble', text: expect.stringContaining('another window') });
    expect(await keptProject()).toEqual(harbour);
  });
});

describe('a first visit', () => {
  it('finds nothing and says nothing', async () => {
    const before = now();
    expect(await restore(keep)).toEqual({ kind: 'nothing' });
    expect(now()).toEqual(before);
  });
});

describe('a damaged copy', () => {
  const half = toText(harbour).slice(0, 300);

  it.each([
    ['cut off', { text: half }, half],
    [
      'of a newer version',
      { text: '{"format":"underpaper","version":9}' },
      '{"format":"underpaper","version":9}',
    ],
    ['of another form', { project: 5 }, '{"project":5}'],
    ['nothing at all', null, 'null'],
  ])('(%s) is set aside, said, and offered; the session goes on', async (_, work, text) => {
    await set('work', work, keep);
    const { project } = now();
    expect(await restore(keep)).toEqual({ kind: 'damaged', aside: true });
    expect(now().project).toBe(project);
    expect(now().notice).toMatchObject({ kind: 'trouble', text: expect.stringMatching(/kept aside/) });
    expect(now().keptAside).toEqual([text]);

    // The new work does not touch it, and the next visit still has it.
    await start().flush();
    reload();
    expect(await restore(keep)).toEqual({ kind: 'restored' });
    expect(now().keptAside).toEqual([text]);
  });

  it('found twice is kept once, and another one beside it', async () => {
    await set('work', { text: half }, keep);
    await restore(keep);
    reload();
    await restore(keep);
    expect(now().keptAside).toEqual([half]);
    await set('work', { text: 'other' }, keep);
    reload();
    await restore(keep);
    expect(now().keptAside).toEqual([half, 'other']);
  });

  it('that cannot be set aside stays where it is', async () => {
    await set('work', { text: half }, keep);
    const readOnly: UseStore = (mode, run) =>
      mode === 'readonly' ? keep(mode, run) : Promise.reject(new Error('Full.'));
    expect(await restore(readOnly)).toEqual({ kind: 'damaged', aside: false });
    expect(now().keptAside).toEqual([half]);
    expect(await get('work', keep)).toEqual({ text: half });
  });
});

describe('a browser that refuses storage', () => {
  it.each([
    ['has none', () => vi.stubGlobal('indexedDB', undefined)],
    [
      'throws',
      () =>
        vi.stubGlobal('indexedDB', {
          open: () => {
            throw new DOMException('The operation is insecure.', 'SecurityError');
          },
        }),
    ],
    [
      'never answers',
      () => {
        vi.useFakeTimers();
        vi.stubGlobal('indexedDB', { open: () => ({}) });
      },
    ],
  ])('because it %s is told, and the work goes on', async (_, refuse) => {
    refuse();
    const restored = restore(openKeep());
    if (vi.isFakeTimers()) await vi.advanceTimersByTimeAsync(10_000);
    expect(await restored).toEqual({ kind: 'refused' });
    vi.useRealTimers();
    expect(now().save).toBe('not-saved');
    expect(now().notice).toMatchObject({
      kind: 'trouble',
      text: expect.stringContaining('save it to a file'),
    });
    rename('Quay');
    expect(now().project.name).toBe('Quay');
  });

  it('only later, says so once and goes on trying', async () => {
    let isFull = false;
    const fickle: UseStore = (mode, run) => (isFull ? Promise.reject(new Error('Full.')) : keep(mode, run));
    const autosave = start(fickle);
    await autosave.flush();
    isFull = true;
    rename('Quay');
    await autosave.flush();
    expect(now().save).toBe('not-saved');
    expect(now().notice?.text).toMatch(/could not keep the last change/);
    session.setState({ notice: null });
    rename('Pier');
    await autosave.flush();
    expect(now().notice).toBeNull();
    isFull = false;
    rename('Mole');
    await autosave.flush();
    expect(now().save).toBe('saved');
    expect((await keptProject())?.name).toBe('Mole');
  });
});
