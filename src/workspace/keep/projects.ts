import { entries, get, type UseStore } from 'idb-keyval';
import { renameProject } from '../../document/edit-project.ts';
import { openFile } from '../../document/file.ts';
import type { Project } from '../../document/project.ts';
import { toText } from '../../document/to-text.ts';
import { phrase } from '../../words/phrase.ts';
import { replaceProject, say } from '../actions.ts';
import { flushWork, knowOpening } from '../autosave.ts';
import { nextOpening } from '../session.ts';
import { asked, patiently, written } from './keep.ts';
import {
  CARD,
  type EarlierState,
  type KeptWork,
  newId,
  PROJECT,
  type ProjectCard,
  STATES,
  stateKey,
} from './records.ts';

/** A deleted project can be brought back for so long, in days. */
export const DAYS_TO_RETURN = 30;

/** Every project kept in this browser, the one changed last first. Those deleted long ago go for good. */
export async function listProjects(keep: UseStore, now = Date.now()): Promise<readonly ProjectCard[]> {
  const all = await patiently(entries<string, unknown>(keep));
  const cards = all.flatMap(([key, value]) => (key.startsWith(CARD) ? [value as ProjectCard] : []));
  const oldest = now - DAYS_TO_RETURN * 86_400_000;
  const [gone, here] = [
    cards.filter(({ deleted }) => deleted !== undefined && deleted < oldest),
    cards.filter(({ deleted }) => deleted === undefined || deleted >= oldest),
  ];
  for (const { id } of gone) await removeForGood(keep, id);
  return here.toSorted((a, b) => b.changed - a.changed);
}

/** The project as it is kept; null when it is not there or cannot be read. */
export async function readProject(keep: UseStore, id: string): Promise<Project | null> {
  const work = await patiently(get<KeptWork>(PROJECT + id, keep));
  const opened = openFile(work?.text ?? '');
  return opened.ok ? opened.project : null;
}

/** Opens a kept project in this tab; what was open stays in its own record. False when it cannot be read. */
export async function openProject(keep: UseStore, id: string): Promise<boolean> {
  await flushWork();
  const work = await patiently(get<KeptWork>(PROJECT + id, keep)).catch(() => undefined);
  const opened = openFile(work?.text ?? '');
  if (work === undefined || !opened.ok) {
    say('trouble', opened.ok ? phrase('The project could not be read.') : opened.error.message);
    return false;
  }
  const opening = nextOpening();
  knowOpening(opening, id, work.text);
  replaceProject(phrase('Open ‘{name}’', { name: opened.project.name }), opened.project, opening);
  return true;
}

const changeCard = (keep: UseStore, id: string, change: (card: ProjectCard) => ProjectCard): Promise<void> =>
  written(keep, async (store) => {
    const card = (await asked(store.get(CARD + id))) as ProjectCard | undefined;
    if (card !== undefined) store.put(change(card), CARD + id);
  });

export const setArchived = (keep: UseStore, id: string, isArchived: boolean): Promise<void> =>
  changeCard(keep, id, (card) => ({ ...card, isArchived }));

/** Deletes a project with a way back, or brings it back. */
export const setDeleted = (keep: UseStore, id: string, isDeleted: boolean): Promise<void> =>
  changeCard(keep, id, ({ deleted: _, ...card }) => (isDeleted ? { ...card, deleted: Date.now() } : card));

export const removeForGood = (keep: UseStore, id: string): Promise<void> =>
  written(keep, async (store) => {
    const states = ((await asked(store.get(STATES + id))) ?? []) as readonly EarlierState[];
    for (const { key } of states) store.delete(stateKey(id, key));
    for (const kind of [PROJECT, CARD, STATES]) store.delete(kind + id);
  });

/** Gives a project that is not open another name. */
export const renameKept = (keep: UseStore, id: string, name: string): Promise<void> =>
  rewritten(keep, id, id, (project) => renameProject(project, name));

/** Keeps a second project that begins as the first is now; its earlier states are its own. */
export const duplicateProject = (keep: UseStore, id: string): Promise<void> =>
  rewritten(keep, id, newId(), (project) =>
    renameProject(project, phrase('{project} (copy)', { project: project.name })),
  );

async function rewritten(
  keep: UseStore,
  from: string,
  to: string,
  change: (project: Project) => Project,
): Promise<void> {
  await written(keep, async (store) => {
    const work = (await asked(store.get(PROJECT + from))) as KeptWork;
    const card = (await asked(store.get(CARD + from))) as ProjectCard;
    const opened = openFile(work.text);
    if (!opened.ok) throw new Error(opened.error.message);
    const project = change(opened.project);
    const text = toText(project);
    const isCopy = from !== to;
    store.put({ ...work, counter: isCopy ? 0 : work.counter + 1, text }, PROJECT + to);
    const changed = isCopy ? { id: to, created: Date.now(), changed: Date.now() } : {};
    store.put({ ...card, ...changed, name: project.name, bytes: text.length }, CARD + to);
  });
}

/** What the browser says of its room, in bytes; null where it does not tell. */
export async function roomOf(): Promise<{ readonly used: number; readonly quota: number } | null> {
  try {
    const { usage, quota } = await navigator.storage.estimate();
    return usage === undefined || quota === undefined ? null : { used: usage, quota };
  } catch {
    return null;
  }
}
