import { type Remote, wrap } from 'comlink';
import { currentLanguage, currentLocale } from '../words/language.ts';
import { phrase } from '../words/phrase.ts';

const NOT_THERE = phrase(
  'This part of the app could not be loaded or stopped working. Try again, or reload the page.',
);

/** Starts a worker with one of the programs named in `worker.ts`, in the language of the page. */
export const startWorker = (program: string): Worker =>
  new Worker(new URL('./worker.ts', import.meta.url), {
    type: 'module',
    name: `${program} ${currentLanguage()} ${currentLocale()}`,
  });

/**
 * What a worker can do, in such a way that nobody waits for one that has failed: every call rejects when its program
 * cannot be loaded or breaks off. `onLost` is told, so that the next order starts another.
 */
export function handOf<Work extends object>(worker: Worker, onLost: () => void): Remote<Work> {
  let lose: (reason: Error) => void = () => undefined;
  const lost = new Promise<never>((_, reject) => {
    lose = reject;
  });
  // Whoever waits hears of it; nobody need.
  lost.catch(() => undefined);
  const fail = (): void => {
    worker.terminate();
    onLost();
    lose(new Error(NOT_THERE));
  };
  worker.addEventListener('error', fail);
  worker.addEventListener('messageerror', fail);
  const remote = wrap<Work>(worker) as unknown as Record<string, (...args: unknown[]) => Promise<unknown>>;
  const called =
    (_: unknown, name: string) =>
    (...args: unknown[]) =>
      Promise.race([remote[name]!(...args), lost]);
  return new Proxy({}, { get: called }) as Remote<Work>;
}
