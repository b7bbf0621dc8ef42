import { createStore } from 'zustand/vanilla';
import { flushWork } from './autosave.ts';

/** A newer build that waits to be taken; null when there is none. */
export const newVersion = createStore<{ readonly waiting: ServiceWorker | null }>(() => ({ waiting: null }));

/** Has the app work without a network from the next visit on, and looks for a newer build. Fails in silence. */
export async function startOffline(): Promise<void> {
  if (!('serviceWorker' in navigator)) return;
  try {
    const registration = await navigator.serviceWorker.register('./offline-worker.js');
    const look = (): void => {
      const { waiting } = registration;
      // The first one is no newer version.
      if (waiting !== null && navigator.serviceWorker.controller !== null) newVersion.setState({ waiting });
    };
    look();
    registration.addEventListener('updatefound', () => {
      registration.installing?.addEventListener('statechange', look);
    });
  } catch {
    // Not to be had here: the app works as long as the network does.
  }
}

/** Saves the work, then loads the page anew in the version that waits. */
export async function takeNewVersion(): Promise<void> {
  const { waiting } = newVersion.getState();
  if (waiting === null) return;
  await flushWork();
  navigator.serviceWorker.addEventListener('controllerchange', () => location.reload(), { once: true });
  waiting.postMessage('take over');
}

export const leaveNewVersion = (): void => newVersion.setState({ waiting: null });
