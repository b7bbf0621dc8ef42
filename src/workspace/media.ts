/** Whether a media query holds now; never where there is no screen. */
export const mediaHolds = (query: string): boolean => globalThis.matchMedia?.(query).matches ?? false;
