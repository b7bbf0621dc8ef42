import { session, type Theme } from '../workspace/session.ts';

const DARK = '(prefers-color-scheme: dark)';

/** Light or dark, the system's own setting looked up where it is to be followed. */
const shownTheme = (theme: Theme): 'light' | 'dark' =>
  theme === 'system' ? (matchMedia(DARK).matches ? 'dark' : 'light') : theme;

/** Keeps the page in the chosen theme. Returns a stop function. */
export function followTheme(): () => void {
  const apply = (): void => {
    const theme = shownTheme(session.getState().theme);
    document.documentElement.dataset.theme = theme;
    const bar = getComputedStyle(document.documentElement).getPropertyValue('--card').trim();
    document.querySelector('meta[name="theme-color"]')?.setAttribute('content', bar);
  };
  apply();
  const system = matchMedia(DARK);
  system.addEventListener('change', apply);
  const stop = session.subscribe((state, before) => {
    if (state.theme !== before.theme) apply();
  });
  return () => {
    system.removeEventListener('change', apply);
    stop();
  };
}
