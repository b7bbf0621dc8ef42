import { get, getMany, type UseStore } from 'idb-keyval';
import { openFile } from '../../document/file.ts';
import type { Project } from '../../document/project.ts';
import { phrase } from '../../words/phrase.ts';
import { say } from '../actions.ts';
import { freshSession, session, type Theme } from '../session.ts';
import { putState } from './earlier-states.ts';
import { asked, patiently, written } from './keep.ts';
import { keeping } from './keeping.ts';
import { type LastWords, lastWords } from './last-words.ts';
import { CARD, type KeptWork, newId, OPEN, PROJECT, type ProjectCard } from './records.ts';

/** The one project of earlier versions. */
const WORK = 'work';
const ASIDE = 'kept aside';
const THEME = 'theme';

/** What was found in the browser's own storage. */
export type Restored =
  | { readonly kind: 'restored'; readonly projectId: string; readonly text: string }
  /** Nothing kept yet: a first visit. */
  | { readonly kind: 'nothing' }
  /** A copy was there but could not be read; a notice says so. `aside`: it is safe under another key. */
  | { readonly kind: 'damaged'; readonly aside: boolean }
  /** The browser refuses storage; a notice says that only saving to a file keeps the work. */
  | { readonly kind: 'refused' };

export const NO_STORAGE = phrase(
  'This browser does not let the page save anything, so the work is gone when the page is closed: save it to a file.',
);

export const cardOf = (id: string, project: Project, text: string, before?: ProjectCard): ProjectCard => ({
  ...(before ?? { id, created: Date.now() }),
  name: project.name,
  changed: Date.now(),
  bytes: text.length,
  blocks: project.blocks.length,
});

/** Takes the one slot of earlier versions over as the first project. */
async function takeOverSlot(keep: UseStore): Promise<void> {
  const work = await get<Partial<KeptWork>>(WORK, keep);
  if (work === undefined) return;
  const legacy = [...lastWords.all()].find(([, { projectId }]) => projectId === '');
  const latest = legacy && legacy[1].owner === work?.owner ? legacy[1] : work;
  const opened = [latest, work].map((one) => openFile(one?.text ?? '')).find(({ ok }) => ok);
  if (!opened?.ok) return;
  const text = openFile(latest?.text ?? '').ok ? latest!.text! : work.text!;
  const id = newId();
  await written(keep, async (store) => {
    store.put(
      {
        owner: work.owner ?? '',
        counter: 0,
        text,
        blockId: latest.blockId ?? null,
        place: latest.place ?? 'block',
      } satisfies KeptWork,
      PROJECT + id,
    );
    store.put(cardOf(id, opened.project, text), CARD + id);
    store.put(id, OPEN);
    store.delete(WORK);
  });
  if (legacy) lastWords.remove(legacy[0]);
}

/**
 * Puts what pages wanted to keep when they were left where it belongs: it stands where the same tab wrote last and no
 * later, and otherwise it is kept beside the project as an earlier state.
 */
async function hearLastWords(keep: UseStore): Promise<void> {
  for (const [key, words] of lastWords.all()) {
    const opened = openFile(words.text);
    if (opened.ok && words.projectId !== '')
      await written(keep, (store) => settle(store, words, opened.project));
    lastWords.remove(key);
  }
}

async function settle(
  store: IDBObjectStore,
  { projectId, ...words }: LastWords,
  project: Project,
): Promise<void> {
  const before = (await asked(store.get(PROJECT + projectId))) as KeptWork | undefined;
  if (before?.owner === words.owner && before.counter >= words.counter) return;
  if (before !== undefined && before.owner !== words.owner) {
    if (before.text === words.text) return;
    const aside = { time: Date.now(), label: phrase('Changes of a tab that was closed'), isAside: true };
    await putState(store, projectId, { ...aside, step: words.owner }, words.text);
    return;
  }
  const card = (await asked(store.get(CARD + projectId))) as ProjectCard | undefined;
  store.put(words, PROJECT + projectId);
  store.put(cardOf(projectId, project, words.text, card), CARD + projectId);
  const step = `${words.owner}/${words.counter}`;
  await putState(
    store,
    projectId,
    { time: Date.now(), label: phrase('When the page was closed'), step },
    words.text,
  );
  if (before === undefined) store.put(projectId, OPEN);
}

/** What the browser refuses once it may well not refuse again. One that does not answer is not waited for twice. */
const twice = <Value>(run: () => Promise<Value>): Promise<Value> =>
  run().catch((trouble: unknown) => {
    if (trouble instanceof DOMException) return run();
    throw trouble;
  });

/** Brings back the project open last in this browser, if any, as a fresh session. Call once, before `startAutosave`. */
export async function restore(keep: UseStore): Promise<Restored> {
  let found: readonly unknown[];
  try {
    await patiently(takeOverSlot(keep));
    await patiently(hearLastWords(keep));
  } catch {
    // What cannot be written now is left where it is; what can be read is opened.
  }
  try {
    found = await twice(async () => {
      const id = await patiently(get<string>(OPEN, keep));
      return [id, ...(await patiently(getMany<unknown>([PROJECT + id, WORK, ASIDE, THEME], keep)))];
    });
  } catch {
    session.setState({ save: 'not-saved' });
    say('trouble', NO_STORAGE);
    return { kind: 'refused' };
  }
  const [id, kept, slot, aside, theme] = found;
  const keptAside = Array.isArray(aside) ? aside.filter((one) => typeof one === 'string') : [];
  const settings = { theme: isTheme(theme) ? theme : session.getState().theme, keptAside };
  session.setState(settings);
  const work = typeof id === 'string' && kept !== undefined ? kept : slot;
  const { text, blockId = null, place } = (work ?? {}) as Partial<KeptWork>;
  const opened = openFile(typeof text === 'string' ? text : '');
  if (opened.ok) {
    const fresh = freshSession(opened.project);
    session.setState({
      ...fresh,
      ...settings,
      blockId: opened.project.blocks.some((block) => block.id === blockId) ? blockId : fresh.blockId,
      place: typeof place === 'string' && place !== '' ? place : fresh.place,
    });
    const projectId = typeof id === 'string' ? id : newId();
    keeping.setState({ keep, projectId });
    return { kind: 'restored', projectId, text: text! };
  }
  return work === undefined
    ? { kind: 'nothing' }
    : keepAside(work, keep, work === kept ? PROJECT + (id as string) : WORK);
}

/** Puts work that cannot be read where no new work overwrites it. */
async function keepAside(work: unknown, keep: UseStore, key: string): Promise<Restored> {
  const kept = (work ?? {}) as Partial<KeptWork>;
  const text = typeof kept.text === 'string' ? kept.text : (JSON.stringify(work) ?? '');
  const opened = openFile(text);
  const reason = opened.ok ? '' : opened.error.message;
  const before = session.getState().keptAside;
  const keptAside = before.includes(text) ? before : [...before, text];
  session.setState({ keptAside });
  const sorry = phrase('The work saved in this browser could not be read');
  try {
    await written(keep, async (store) => {
      store.put(keptAside, ASIDE);
      store.delete(key);
      store.delete(OPEN);
    });
    say(
      'trouble',
      phrase('{sorry}. It is kept aside, and the menu can save it to a file. {reason}', { sorry, reason }),
    );
    return { kind: 'damaged', aside: true };
  } catch {
    say(
      'trouble',
      phrase('{sorry}. It is left where it is, and the menu can save it to a file. {reason}', {
        sorry,
        reason,
      }),
    );
    return { kind: 'damaged', aside: false };
  }
}

const isTheme = (value: unknown): value is Theme =>
  value === 'system' || value === 'light' || value === 'dark';
