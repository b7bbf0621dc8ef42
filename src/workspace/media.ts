/** Windows in which the drawing has all the width, or all the height; the style sheets have the same. */
export const NARROW = '(max-width: 900px), (max-height: 520px)';

/** Whether a media query holds now; never where there is no screen. */
export const mediaHolds = (query: string): boolean => globalThis.matchMedia?.(query).matches ?? false;
