import type { UseStore } from 'idb-keyval';

const STORE = 'kept';

/** A browser that does not answer by then is taken to refuse, in milliseconds. */
const PATIENCE_MS = 4_000;

/** Names of trouble that another opening of the database can mend: it was closed, deleted or made anew. */
const STALE: ReadonlySet<string> = new Set(['InvalidStateError', 'NotFoundError']);

function open(name: string, version?: number): Promise<IDBDatabase> {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open(name, version);
    request.onupgradeneeded = () => {
      if (!request.result.objectStoreNames.contains(STORE)) request.result.createObjectStore(STORE);
    };
    request.onerror = () => reject(request.error);
    request.onsuccess = () => resolve(request.result);
  });
}

/**
 * The browser's own database for this app, opened at the first use, which fails where that is refused. One that has been
 * deleted, evicted or closed under the running app is opened anew, so that only what it held is gone.
 */
export function openKeep(name = 'underpaper'): UseStore {
  let coming: Promise<IDBDatabase> | null = null;
  const forget = (): void => {
    coming = null;
  };
  const database = (): Promise<IDBDatabase> => {
    coming ??= open(name)
      .then((found) => {
        if (found.objectStoreNames.contains(STORE)) return found;
        found.close();
        return open(name, found.version + 1);
      })
      .then((found) => {
        found.onclose = forget;
        found.onversionchange = () => {
          // Whoever deletes it would wait for this page for ever.
          found.close();
          forget();
        };
        return found;
      });
    coming.catch(forget);
    return coming;
  };
  return async (mode, run) => {
    const begin = async () => (await database()).transaction(STORE, mode).objectStore(STORE);
    let store: IDBObjectStore;
    try {
      store = await begin();
    } catch (trouble) {
      if (!(trouble instanceof DOMException) || !STALE.has(trouble.name)) throw trouble;
      forget();
      store = await begin();
    }
    return run(store);
  };
}

/** The answer, or a rejection when the browser gives none in good time. */
export function patiently<Value>(answer: Promise<Value>): Promise<Value> {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const impatience = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(new Error('The browser storage does not answer.')), PATIENCE_MS);
  });
  return Promise.race([answer, impatience]).finally(() => clearTimeout(timer));
}

/** What a request inside a transaction brings. */
export const asked = <Value>(request: IDBRequest<Value>): Promise<Value> =>
  new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });

/**
 * Runs one transaction that writes: whole or not at all. `work` asks and puts, and awaits nothing else. What it throws
 * takes everything back.
 */
export const written = <Value>(
  keep: UseStore,
  work: (store: IDBObjectStore) => Promise<Value>,
): Promise<Value> =>
  patiently(
    keep('readwrite', async (store) => {
      const { transaction } = store;
      const done = new Promise<void>((resolve, reject) => {
        transaction.oncomplete = () => resolve();
        transaction.onabort = () => reject(transaction.error ?? new Error('The change was taken back.'));
      });
      done.catch(() => undefined);
      try {
        const value = await work(store);
        await done;
        return value;
      } catch (thrown) {
        try {
          transaction.abort();
        } catch {
          // It has ended already.
        }
        throw thrown;
      }
    }),
  );
