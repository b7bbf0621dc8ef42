import { get, set, type UseStore } from 'idb-keyval';
import { openFile } from '../document/file.ts';
import { toText } from '../document/to-text.ts';
import { phrase } from '../words/phrase.ts';
import { dismissNotice, say, setSaveState } from './actions.ts';
import { hasStates, putState } from './keep/earlier-states.ts';
import { asked, patiently, written } from './keep/keep.ts';
import { askToLast, keeping } from './keep/keeping.ts';
import { lastWords } from './keep/last-words.ts';
import { CARD, type KeptWork, newId, OPEN, PROJECT, type ProjectCard } from './keep/records.ts';
import { cardOf, NO_STORAGE } from './keep/restore.ts';
import { talkToTabs } from './keep/tabs.ts';
import { type Session, session, undoLabel } from './session.ts';

/** Time without a change after which the work is saved, in milliseconds. */
const QUIET_MS = 300;
/** However fast changes follow, the first that is not saved yet waits no longer. */
const MOST_MS = 700;
/** After that time what the browser refused is tried again. */
const AGAIN_MS = 3_000;

export interface Autosave {
  /** Saves what is not saved yet, now. Never rejects. */
  readonly flush: () => Promise<void>;
  /** Has this tab save the project that another one saves; what loses is kept as an earlier state. */
  readonly takeOver: () => Promise<void>;
  readonly stop: () => void;
}

/** One project this tab has opened. */
interface Slot {
  readonly id: string;
  /** Its text in the database as this tab knows it; null for a project that is not there yet. */
  known: string | null;
  counter: number;
  role: 'unknown' | 'saves' | 'follows';
  /** It follows, and has changes of its own. */
  isApart: boolean;
  /** What has been written last. */
  kept: Session | null;
}

class SavedElsewhere extends Error {}

export interface AutosaveStart {
  readonly projectId?: string;
  /** The project's text as it was found. */
  readonly text?: string;
}

let running: Autosave | null = null;

export const takeOver = async (): Promise<void> => running?.takeOver();
export const flushWork = async (): Promise<void> => running?.flush();

/** Under which id projects brought from the list are kept, by their opening. */
const idOfOpening = new Map<number, string>();
/** Texts of those projects as they were read. */
const textsRead = new Map<string, string>();

/** Tells that the project to be opened as number `opening` is one that is kept already, with this text. */
export function knowOpening(opening: number, projectId: string, text: string): void {
  idOfOpening.set(opening, projectId);
  textsRead.set(projectId, text);
}

/**
 * Keeps the work in the browser's storage: at once, within a second of each change, and when the page is hidden. Every
 * project opened in this tab has a record of its own. The session's save state tells how it stands; trouble is said
 * once and goes with its cause.
 */
export function startAutosave(
  keep: UseStore,
  page: EventTarget = window,
  { projectId, text }: AutosaveStart = {},
): Autosave {
  const owner = newId();
  const slots = new Map<string, Slot>();
  let timer: ReturnType<typeof setTimeout> | undefined;
  let waitingSince: number | null = null;
  let writing: Promise<void> | null = null;
  let isStopped = false;
  let isAdopting = false;
  let isTroubleSaid = session.getState().notice?.text === NO_STORAGE;
  let theme = session.getState().theme;
  if (projectId !== undefined) knowOpening(session.getState().opening, projectId, text ?? '');

  const slotOf = ({ opening }: Session): Slot => {
    const id = idOfOpening.get(opening) ?? newId();
    idOfOpening.set(opening, id);
    const slot: Slot = slots.get(id) ?? {
      id,
      known: textsRead.get(id) ?? null,
      counter: 0,
      role: 'unknown',
      isApart: false,
      kept: null,
    };
    slots.set(id, slot);
    return slot;
  };
  const isKept = (state: Session, { kept }: Slot): boolean =>
    kept !== null &&
    state.project === kept.project &&
    state.blockId === kept.blockId &&
    state.place === kept.place;

  const show = (): void => {
    const slot = slotOf(session.getState());
    const isFollowing = slot.role === 'follows';
    keeping.setState({ keep, projectId: slot.id, isFollowing, isApart: isFollowing && slot.isApart });
  };

  const tabs = talkToTabs(owner, {
    saves: (id) => slots.get(id)?.role === 'saves' && slotOf(session.getState()).id === id,
    onAsked: async (id) => {
      const slot = slots.get(id)!;
      if (slotOf(session.getState()) === slot) await flush();
      follow(slot);
      tabs.tell('given', id);
    },
    onWrote: (id) => {
      const slot = slots.get(id);
      if (slot === undefined) return;
      if (slot.role === 'saves') follow(slot);
      if (!slot.isApart) void adopt(slot);
    },
    onLeft: (id) => {
      const slot = slots.get(id);
      if (slot?.role === 'follows' && slotOf(session.getState()) === slot) void take(slot);
    },
  });

  function follow(slot: Slot): void {
    slot.role = 'follows';
    slot.isApart = slotOf(session.getState()) === slot && !isKept(session.getState(), slot);
    show();
  }

  /** Shows what another tab has written. */
  async function adopt(slot: Slot): Promise<void> {
    const work = await patiently(get<KeptWork>(PROJECT + slot.id, keep)).catch(() => undefined);
    const state = session.getState();
    if (work === undefined || slotOf(state) !== slot || slot.isApart || work.text === slot.known) return;
    const opened = openFile(work.text);
    if (!opened.ok || isStopped) return;
    const { project } = opened;
    slot.known = work.text;
    slot.counter = work.counter;
    isAdopting = true;
    session.setState({
      project,
      draft: null,
      selection: [],
      history: { past: [], future: [] },
      blockId: project.blocks.some(({ id }) => id === state.blockId)
        ? state.blockId
        : (project.blocks[0]?.id ?? null),
      save: 'saved',
    });
    isAdopting = false;
    slot.kept = session.getState();
  }

  async function take(slot: Slot): Promise<void> {
    if (slot.role === 'follows') {
      await tabs.askFor(slot.id);
      if (!slot.isApart) await adopt(slot);
    }
    slot.role = 'saves';
    slot.kept = null;
    slot.counter = -1;
    slot.isApart = false;
    show();
    await flush();
  }

  /** Writes one state of a project into its record, or, where another tab saves it, beside it. */
  async function commit(slot: Slot, state: Session, content: string): Promise<void> {
    const { project, blockId, place, history, opening } = state;
    const label = undoLabel(state) ?? phrase('Opened');
    const step = `${owner}/${opening}/${history.past.length}/${label}`;
    const time = Date.now();
    const isChanged = content !== slot.known;
    const counted = await written(keep, async (store) => {
      const before = (await asked(store.get(PROJECT + slot.id))) as KeptWork | undefined;
      const isOurs = before === undefined || before.owner === owner;
      if (slot.role === 'follows') {
        const aside = {
          time,
          label: phrase('In another tab: {label}', { label }),
          step: owner,
          isAside: true,
        };
        if (isChanged) await putState(store, slot.id, aside, content);
        return slot.counter;
      }
      if (!isOurs && slot.counter > 0) throw new SavedElsewhere();
      if (!isOurs && before.text !== slot.known && before.text !== content)
        await putState(
          store,
          slot.id,
          {
            time,
            label: phrase('Before this tab took over'),
            step: `${before.owner} lost`,
            isAside: true,
          },
          before.text,
        );
      const card = (await asked(store.get(CARD + slot.id))) as ProjectCard | undefined;
      const counter = Math.max(before?.counter ?? 0, slot.counter) + 1;
      store.put({ owner, counter, text: content, blockId, place } satisfies KeptWork, PROJECT + slot.id);
      if (card === undefined || isChanged || !(await hasStates(store, slot.id))) {
        store.put(cardOf(slot.id, project, content, card), CARD + slot.id);
        await putState(store, slot.id, { time, label, step }, content);
      }
      store.put(slot.id, OPEN);
      return counter;
    });
    // Only now: a write taken back leaves the record another's, and that other would seem to have overwritten ours.
    slot.counter = counted;
  }

  async function write(state: Session, slot: Slot): Promise<void> {
    try {
      if (slot.role === 'unknown') {
        const isElsewhere = slot.known !== null && (await tabs.isSavedElsewhere(slot.id));
        if (isStopped) return;
        slot.role = isElsewhere ? 'follows' : 'saves';
        if (isElsewhere) {
          slot.isApart = slot.kept === null ? toText(state.project) !== slot.known : true;
          if (!slot.isApart) slot.kept = state;
        }
        show();
        if (isElsewhere && !slot.isApart) return;
      }
      const content = toText(state.project);
      await commit(slot, state, content);
      slot.known = content;
      slot.kept = state;
      if (slot.role === 'saves') tabs.tell('wrote', slot.id);
      if (isKept(session.getState(), slotOf(session.getState()))) lastWords.clear(owner);
      if (isTroubleSaid) {
        isTroubleSaid = false;
        const said = session.getState().notice?.text;
        if (said === NOT_SAVED || said === NO_STORAGE) dismissNotice();
      }
      const isSame = session.getState().project === state.project;
      setSaveState(isSame ? (slot.role === 'saves' ? 'saved' : 'not-saved') : 'saving');
      keeping.setState({ written: keeping.getState().written + 1 });
      if (state.history.past.length > 0) void askToLast();
    } catch (trouble) {
      if (isStopped) return;
      if (trouble instanceof SavedElsewhere) {
        follow(slot);
        // What it has of its own goes aside.
        await commit(slot, state, toText(state.project)).catch(() => undefined);
        setSaveState('not-saved');
        return;
      }
      setSaveState('not-saved');
      plan(AGAIN_MS);
      if (isTroubleSaid) return;
      isTroubleSaid = true;
      say('trouble', NOT_SAVED);
    }
  }

  async function flush(): Promise<void> {
    clearTimeout(timer);
    timer = undefined;
    waitingSince = null;
    // A change during a write is written after it, so that the later one always stands.
    while (writing !== null) await writing;
    if (isStopped) return;
    const state = session.getState();
    const slot = slotOf(state);
    if (isKept(state, slot)) {
      // Undone and done again: there is nothing to write.
      setSaveState(slot.role === 'follows' && slot.isApart ? 'not-saved' : 'saved');
      return;
    }
    await writeNow(state, slot);
  }

  async function writeNow(state: Session, slot: Slot): Promise<void> {
    writing = write(state, slot).finally(() => {
      writing = null;
    });
    await writing;
  }

  function plan(ms: number): void {
    clearTimeout(timer);
    timer = setTimeout(() => void flush(), ms);
  }

  const isOther = (state: Session, before: Session): boolean =>
    state.project !== before.project || state.blockId !== before.blockId || state.place !== before.place;

  const unsubscribe = session.subscribe((state, before) => {
    if (state.theme !== theme) {
      theme = state.theme;
      set('theme', state.theme, keep).catch(() => undefined);
    }
    if (isAdopting || !isOther(state, before)) return;
    if (state.opening !== before.opening) {
      // What is left is written as it was left, before anything of the other.
      const left = slotOf(before);
      const last = { ...before, draft: null };
      if (!isKept(before, left))
        writing = (writing ?? Promise.resolve())
          .then(() => write(last, left))
          .finally(() => {
            writing = null;
          });
      show();
    }
    const slot = slotOf(state);
    if (slot.role === 'follows') {
      if (state.project === before.project) return;
      slot.isApart = true;
      show();
    }
    const now = Date.now();
    waitingSince ??= now;
    plan(Math.max(0, Math.min(QUIET_MS, waitingSince + MOST_MS - now)));
    if (state.project !== before.project) setSaveState('saving');
  });

  // A hidden page may end without another event. `visibilitychange` bubbles up from the document.
  const leave = (event: Event): void => {
    const state = session.getState();
    const slot = slotOf(state);
    if (!isKept(state, slot)) {
      const { project, blockId, place } = state;
      // One write may be on its way with the next number.
      const counter = Math.max(0, slot.counter) + (writing === null ? 1 : 2);
      lastWords.put({ projectId: slot.id, owner, counter, text: toText(project), blockId, place });
    }
    void flush().then(() => {
      if (event.type === 'pagehide' && slot.role === 'saves') tabs.tell('left', slot.id);
    });
  };
  const leaving = ['visibilitychange', 'pagehide'];
  for (const event of leaving) page.addEventListener(event, leave);
  show();
  void flush();

  running = {
    flush,
    takeOver: () => take(slotOf(session.getState())),
    stop: () => {
      isStopped = true;
      clearTimeout(timer);
      unsubscribe();
      tabs.close();
      for (const event of leaving) page.removeEventListener(event, leave);
    },
  };
  return running;
}

const NOT_SAVED = phrase('The browser could not save the last change: save the work to a file.');
