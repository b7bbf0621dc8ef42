import { createStore } from 'zustand/vanilla';
import { type Block, EMPTY_PROJECT, type Project } from '../document/project.ts';

/** `system` follows the machine's own light or dark setting. */
export type Theme = 'system' | 'light' | 'dark';

/** Whether the copy kept in this browser is up to date. */
export type SaveState = 'saved' | 'saving' | 'not-saved';

/** One plain sentence to show until it is dismissed or replaced. */
export interface Notice {
  readonly kind: 'trouble' | 'done';
  readonly text: string;
}

/** What a step of the history brings back: the work, and where the person was when the step was made. */
export interface Moment {
  readonly project: Project;
  readonly opening: number;
  readonly blockId: string | null;
  readonly selection: readonly string[];
}

export interface HistoryEntry {
  /** What was done, as a menu says it after "Undo": `Draw cut`. */
  readonly label: string;
  /** Edits that follow with the same key join this entry; null never joins. */
  readonly merge: string | null;
  /** In `past`: the moment before the step. In `future`: the moment after it. */
  readonly moment: Moment;
}

export interface History {
  /** Oldest first; undo takes the last. */
  readonly past: readonly HistoryEntry[];
  /** Next to redo last. */
  readonly future: readonly HistoryEntry[];
}

export interface Session {
  /** The recorded work: what is saved, and what undo and redo move through. */
  readonly project: Project;
  /** The work as a running gesture would leave it; null when none runs. Shown, never saved or recorded. */
  readonly draft: Project | null;
  /**
   * Which of the projects opened in this window it is: another number means another project, in which ids mean other
   * things, and what was chosen or asked for in the one before is over. Undoing an opening brings the number back.
   */
  readonly opening: number;
  /** The block on the drawing board, or null when the project has none. */
  readonly blockId: string | null;
  /** Ids of chosen cuts of the open block. */
  readonly selection: readonly string[];
  /** Name of the place in sight, an entry in the screens' table of places. */
  readonly place: string;
  readonly history: History;
  readonly save: SaveState;
  readonly notice: Notice | null;
  readonly theme: Theme;
  /** Texts of kept work that could not be read when the app started; the menu can save them to files. */
  readonly keptAside: readonly string[];
}

let openings = 0;

/** A number that no project in this window has had. */
export const nextOpening = (): number => ++openings;

/** A session that has just begun on a project: first block open, nothing to undo. */
export const freshSession = (project: Project): Session => ({
  project,
  draft: null,
  opening: nextOpening(),
  blockId: project.blocks[0]?.id ?? null,
  selection: [],
  place: 'block',
  history: { past: [], future: [] },
  save: 'saved',
  notice: null,
  theme: 'system',
  keptAside: [],
});

/**
 * The living session. Read with `useStore(session, selector)` (a selector returns a primitive or a part that is
 * already there, never a fresh array); changed only by the functions of `actions.ts`.
 */
export const session = createStore<Session>(() => freshSession(EMPTY_PROJECT));

/** Calls back whenever another project has taken the place of the open one. Returns a stop function. */
export const onOtherProject = (run: () => void): (() => void) =>
  session.subscribe((state, before) => {
    if (state.opening !== before.opening) run();
  });

/** The project to draw and check: the draft of a running gesture, or the recorded one. */
export const shownProject = (state: Session): Project => state.draft ?? state.project;

/** The block on the board as it is shown, or null. */
export const shownBlock = (state: Session): Block | null =>
  shownProject(state).blocks.find((block) => block.id === state.blockId) ?? null;

/** What undo would take back, or null. */
export const undoLabel = (state: Session): string | null => state.history.past.at(-1)?.label ?? null;

/** What redo would do again, or null. */
export const redoLabel = (state: Session): string | null => state.history.future.at(-1)?.label ?? null;
