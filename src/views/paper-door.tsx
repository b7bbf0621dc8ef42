import { type ComponentType, type ReactNode, useEffect, useState } from 'react';

let paperPlace: ComponentType | null = null;

/** Loads the Paper place, once; settles with it, or fails where it cannot be loaded now. */
export async function loadPaperPlace(): Promise<ComponentType> {
  paperPlace ??= (await import('./paper/paper-place.tsx')).PaperPlace;
  return paperPlace;
}

/**
 * The Paper place, at once where it is loaded, else `waiting` until it is. Not a lazy component: React would keep its
 * fallback on show for a third of a second even when the place is there.
 */
export function PaperDoor({ waiting }: { readonly waiting: ReactNode }) {
  const [Place, setPlace] = useState(() => paperPlace);
  const [failure, setFailure] = useState<unknown>(null);
  useEffect(() => {
    if (!Place) loadPaperPlace().then((place) => setPlace(() => place), setFailure);
  }, [Place]);
  // For the boundary around the places to tell.
  if (failure !== null) throw failure;
  return Place ? <Place /> : waiting;
}
