import type { KeptWork } from './records.ts';

/** Beginning of keys in the page's local storage, which can be written in the very last moment of a page. */
const PREFIX = 'underpaper last words';

/** What a page wanted to keep when it was left. */
export interface LastWords extends KeptWork {
  readonly projectId: string;
}

function quietly<Value>(run: () => Value): Value | undefined {
  try {
    return run();
  } catch {
    // Full or forbidden: the database is then all there is.
    return undefined;
  }
}

const keyOf = (owner: string): string => `${PREFIX} ${owner}`;

/**
 * The database is written in its own time, and a page that is closed or loaded anew is gone before it has been. So the
 * last change is also put, at once, where a page can write without waiting, until the database has it. Each tab has
 * words of its own, so that none speaks over another.
 */
export const lastWords = {
  put: (words: LastWords): void => {
    quietly(() => localStorage.setItem(keyOf(words.owner), JSON.stringify(words)));
  },
  clear: (owner: string): void => {
    quietly(() => localStorage.removeItem(keyOf(owner)));
  },
  /** All that have been left, by the key they are under; what cannot be read is left out. */
  all: (): ReadonlyMap<string, LastWords> => {
    const found = new Map<string, LastWords>();
    quietly(() => {
      for (let i = 0; i < localStorage.length; i++) {
        const key = localStorage.key(i) ?? '';
        const words = key.startsWith(PREFIX) ? readWords(localStorage.getItem(key)) : undefined;
        if (words) found.set(key, words);
      }
    });
    return found;
  },
  remove: (key: string): void => {
    quietly(() => localStorage.removeItem(key));
  },
};

function readWords(text: string | null): LastWords | undefined {
  const words = quietly(() => JSON.parse(text ?? 'null')) as Partial<LastWords> | null | undefined;
  if (typeof words?.text !== 'string' || typeof words.owner !== 'string') return undefined;
  return {
    projectId: typeof words.projectId === 'string' ? words.projectId : '',
    owner: words.owner,
    counter: typeof words.counter === 'number' ? words.counter : Number.POSITIVE_INFINITY,
    text: words.text,
    blockId: typeof words.blockId === 'string' ? words.blockId : null,
    place: typeof words.place === 'string' ? words.place : '',
  };
}
