import { createStore, getMany, set, type UseStore, update } from 'idb-keyval';
import { openFile } from '../document/file.ts';
import { toText } from '../document/to-text.ts';
import { say, setSaveState } from './actions.ts';
import { freshSession, type Session, session, type Theme } from './session.ts';

/** Time without a change after which the work is kept, in milliseconds. */
const QUIET_MS = 400;

/** A browser that does not answer by then is taken to refuse storage, so that the work can begin. */
const PATIENCE_MS = 4_000;

/** Key in the page's local storage, which can be written in the very last moment of a page. */
const LAST_WORDS = 'underpaper last words';

const WORK = 'work';
const ASIDE = 'kept aside';
const THEME = 'theme';

/** What is kept under `work`. */
interface KeptWork {
  /** The window that keeps its work here: the one opened last. An earlier one must not overwrite it. */
  readonly owner: string;
  /** The project as a file has it. */
  readonly text: string;
  readonly blockId: string | null;
  readonly place: string;
}

/** What was found in the browser's own storage. */
export type Restored =
  | { readonly kind: 'restored' }
  /** Nothing kept yet: a first visit. */
  | { readonly kind: 'nothing' }
  /** A copy was there but could not be read; a notice says so. `aside`: it is safe under another key. */
  | { readonly kind: 'damaged'; readonly aside: boolean }
  /** The browser refuses storage; a notice says that only saving to a file keeps the work. */
  | { readonly kind: 'refused' };

/** The browser's own database for this app; opened at the first use, which fails where that is refused. */
export const openKeep = (databaseName = 'underpaper'): UseStore => createStore(databaseName, 'kept');

/**
 * The database is written in its own time, and a page that is closed or loaded anew is gone before it has been.
 * So the last change is also put, at once, where a page can write without waiting, until the database has it.
 */
const lastWords = {
  put: (work: KeptWork): void => {
    // Full or forbidden: the database is then all there is.
    quietly(() => localStorage.setItem(LAST_WORDS, JSON.stringify(work)));
  },
  take: (): unknown => quietly(() => JSON.parse(localStorage.getItem(LAST_WORDS) ?? 'null')) ?? undefined,
  clear: (): void => {
    quietly(() => localStorage.removeItem(LAST_WORDS));
  },
};

function quietly<Value>(run: () => Value): Value | undefined {
  try {
    return run();
  } catch {
    return undefined;
  }
}

/** Brings back the work kept in this browser, if any, as a fresh session. Call once, before `startAutosave`. */
export async function restore(keep: UseStore): Promise<Restored> {
  let found: readonly unknown[];
  try {
    found = await patiently(getMany<unknown>([WORK, ASIDE, THEME], keep));
  } catch {
    session.setState({ save: 'not-saved' });
    say(
      'trouble',
      'This browser does not let the page keep anything, so the work is gone when the page is closed: save it to a file.',
    );
    return { kind: 'refused' };
  }
  const [work, aside, theme] = found;
  const keptAside = Array.isArray(aside) ? aside.filter((one) => typeof one === 'string') : [];
  const settings = { theme: isTheme(theme) ? theme : session.getState().theme, keptAside };
  session.setState(settings);
  for (const latest of [lastWords.take(), work]) {
    const { text, blockId = null, place } = (latest ?? {}) as Partial<KeptWork>;
    const opened = openFile(typeof text === 'string' ? text : '');
    if (!opened.ok) continue;
    const fresh = freshSession(opened.project);
    session.setState({
      ...fresh,
      ...settings,
      blockId: opened.project.blocks.some(({ id }) => id === blockId) ? blockId : fresh.blockId,
      place: typeof place === 'string' ? place : fresh.place,
    });
    return { kind: 'restored' };
  }
  return work === undefined ? { kind: 'nothing' } : keepAside(work, keep);
}

/** Puts work that cannot be read where no new work overwrites it. */
async function keepAside(work: unknown, keep: UseStore): Promise<Restored> {
  const kept = (work ?? {}) as Partial<KeptWork>;
  const text = typeof kept.text === 'string' ? kept.text : (JSON.stringify(work) ?? '');
  const opened = openFile(text);
  const reason = opened.ok ? '' : opened.error.message;
  const before = session.getState().keptAside;
  const keptAside = before.includes(text) ? before : [...before, text];
  session.setState({ keptAside });
  const sorry = 'The work kept in this browser could not be read';
  try {
    await set(ASIDE, keptAside, keep);
    say('trouble', `${sorry}. It is kept aside, and the menu can save it to a file. ${reason}`);
    return { kind: 'damaged', aside: true };
  } catch {
    say(
      'trouble',
      `${sorry}. It is left where it is, so changes are not kept now: save them to a file. ${reason}`,
    );
    return { kind: 'damaged', aside: false };
  }
}

function patiently<Value>(answer: Promise<Value>): Promise<Value> {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const impatience = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(new Error('The browser storage does not answer.')), PATIENCE_MS);
  });
  return Promise.race([answer, impatience]).finally(() => clearTimeout(timer));
}

const isTheme = (value: unknown): value is Theme =>
  value === 'system' || value === 'light' || value === 'dark';

export interface Autosave {
  /** Keeps what is not kept yet, now. Never rejects. */
  readonly flush: () => Promise<void>;
  readonly stop: () => void;
}

/** Another window has taken the keeping over. */
class TakenOver extends Error {}

/**
 * Keeps the work in the browser's storage: at once, a moment after each change, and when the page is hidden.
 * The session's save state tells how it stands; trouble is said once.
 */
export function startAutosave(keep: UseStore, page: EventTarget = window): Autosave {
  const owner = `${Date.now().toString(36)}-${Math.random().toString(36).slice(2)}`;
  let kept: Session | null = null;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let writing: Promise<void> | null = null;
  let isTaken = false;
  let isTroubleSaid = false;
  let keptTheme = session.getState().theme;

  const isKept = (state: Session): boolean =>
    kept !== null &&
    state.project === kept.project &&
    state.blockId === kept.blockId &&
    state.place === kept.place;

  const workOf = ({ project, blockId, place }: Session): KeptWork => ({
    owner,
    text: toText(project),
    blockId,
    place,
  });

  async function write(): Promise<void> {
    const state = session.getState();
    const work = workOf(state);
    const isFirst = kept === null;
    try {
      await update<KeptWork>(
        WORK,
        (before) => {
          if (!isFirst && before?.owner !== owner) throw new TakenOver();
          return work;
        },
        keep,
      );
      kept = state;
      if (isKept(session.getState())) lastWords.clear();
      isTroubleSaid = false;
      setSaveState(session.getState().project === state.project ? 'saved' : 'saving');
    } catch (trouble) {
      isTaken = trouble instanceof TakenOver;
      setSaveState('not-saved');
      if (isTroubleSaid) return;
      isTroubleSaid = true;
      say('trouble', isTaken ? TAKEN_OVER : NOT_KEPT);
    }
  }

  async function flush(): Promise<void> {
    clearTimeout(timer);
    timer = undefined;
    // A change during a write is written after it, so that the later one always stands.
    while (writing !== null) await writing;
    if (isTaken) return;
    if (isKept(session.getState())) {
      // Undone and done again: there is nothing to write.
      setSaveState('saved');
      return;
    }
    writing = write().finally(() => {
      writing = null;
    });
    await writing;
  }

  const unsubscribe = session.subscribe((state, before) => {
    if (state.theme !== keptTheme) {
      keptTheme = state.theme;
      set(THEME, state.theme, keep).catch(() => undefined);
    }
    if (isTaken) return;
    const isChanged =
      state.project !== before.project || state.blockId !== before.blockId || state.place !== before.place;
    if (!isChanged) return;
    clearTimeout(timer);
    timer = setTimeout(() => void flush(), QUIET_MS);
    if (state.project !== before.project) setSaveState('saving');
  });

  // A hidden page may end without another event. `visibilitychange` bubbles up from the document.
  const leaving = ['visibilitychange', 'pagehide'];
  const leave = () => {
    const state = session.getState();
    if (!isTaken && !isKept(state)) lastWords.put(workOf(state));
    void flush();
  };
  for (const event of leaving) page.addEventListener(event, leave);
  void flush();

  return {
    flush,
    stop: () => {
      clearTimeout(timer);
      unsubscribe();
      for (const event of leaving) page.removeEventListener(event, leave);
    },
  };
}

const TAKEN_OVER =
  'Underpaper is open in another window too, and that one keeps its work now: save this window’s work to a file.';

const NOT_KEPT = 'The browser could not keep the last change: save the work to a file.';
