import { loadLanguage, readLanguage } from '../words/language.ts';

/** What every worker begins with: the language, then its program. */
const PROGRAMS: Readonly<Record<string, () => Promise<unknown>>> = {
  cutting: () => import('./cutting-worker.ts'),
  drawing: () => import('./drawing-worker.ts'),
  piecing: () => import('./piecing-worker.ts'),
  picturing: () => import('./picturing-worker.ts'),
  rounds: () => import('./rounds-worker.ts'),
  sheets: () => import('./pdf-worker.ts'),
};

// What is asked meanwhile waits, in its order.
const held: MessageEvent[] = [];
const hold = (message: MessageEvent): void => {
  held.push(message);
};

async function start(): Promise<void> {
  // `sheets de de-AT`: the program, the language, the locale.
  const [program = '', language = 'en', locale = language] = self.name.split(' ');
  await loadLanguage(readLanguage(language) ?? 'en', [locale]).catch(() => loadLanguage('en', []));
  await PROGRAMS[program]?.();
  self.removeEventListener('message', hold);
  for (const { data, ports } of held)
    self.dispatchEvent(new MessageEvent('message', { data, ports: [...ports] }));
}

self.addEventListener('message', hold);
start().catch((thrown: unknown) => {
  // Heard by the page as an error of the worker, which a rejection alone is not.
  setTimeout(() => {
    throw thrown;
  });
});
