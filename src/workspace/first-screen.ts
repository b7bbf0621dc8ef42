let tell: () => void = () => undefined;

/**
 * Settles when the first screen of this visit has been painted, or could not be loaded. What nobody sees yet, such as
 * the workers that get ready and what is kept for a visit without a network, is asked for after that.
 */
export const firstScreen: Promise<void> = new Promise((resolve) => {
  tell = resolve;
});

/** Tells that a screen stands: it is painted with the next frame, or never while the window is hidden. */
export function tellFirstScreen(): void {
  if (document.hidden) tell();
  else requestAnimationFrame(() => setTimeout(tell, 0));
}

/** Starts something once the first screen stands, and returns a function that stops it, begun or not. */
export function onceShown(start: () => () => void): () => void {
  let stop: (() => void) | null = () => undefined;
  void firstScreen.then(() => {
    if (stop !== null) stop = start();
  });
  return () => {
    stop?.();
    stop = null;
  };
}
