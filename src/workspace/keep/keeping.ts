import type { UseStore } from 'idb-keyval';
import { createStore } from 'zustand/vanilla';

/** How the open project is kept. */
export interface Keeping {
  /** The browser's database; null until it has been opened. */
  readonly keep: UseStore | null;
  /** The open project's id in it. */
  readonly projectId: string | null;
  /** Another tab saves this project; what is done there is shown here. */
  readonly isFollowing: boolean;
  /** It has changes of its own all the same, which are kept aside. */
  readonly isApart: boolean;
  /** The browser's promise not to clear what is kept when room is short; null before it has been asked. */
  readonly isLasting: boolean | null;
  /** Counts what has been written, so that lists look again. */
  readonly written: number;
}

const AT_FIRST: Keeping = {
  keep: null,
  projectId: null,
  isFollowing: false,
  isApart: false,
  isLasting: null,
  written: 0,
};

export const keeping = createStore<Keeping>(() => AT_FIRST);

/** Asks the browser, once, not to clear what is kept when room is short. */
export async function askToLast(): Promise<void> {
  if (keeping.getState().isLasting !== null) return;
  keeping.setState({ isLasting: false });
  try {
    const { storage } = navigator;
    keeping.setState({ isLasting: (await storage.persisted()) || (await storage.persist()) });
  } catch {
    // Not to be had here: it is not promised.
  }
}
