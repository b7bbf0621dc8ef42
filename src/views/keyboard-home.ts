/**
 * Gives the keyboard to the screen in sight where nothing has it: to its drawing, or else to the screen as a whole.
 */
export function giveKeyboard(): void {
  if (document.activeElement !== null && document.activeElement !== document.body) return;
  const drawing = document.querySelector<HTMLElement>('main [role="application"]');
  const screen = drawing ?? document.querySelector<HTMLElement>('main');
  if (screen === null) return;
  if (drawing === null) screen.tabIndex = -1;
  // Quiet until a key is pressed: a ring round all that one sees tells nothing.
  screen.dataset.quiet = '';
  for (const heard of ['keydown', 'blur'])
    screen.addEventListener(heard, () => delete screen.dataset.quiet, { once: true });
  screen.focus({ preventScroll: true });
}
