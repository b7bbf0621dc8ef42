import { useCallback, useSyncExternalStore } from 'react';
import { NARROW } from '../workspace/media.ts';

/** Whether a media query holds, and again whenever that changes. */
export function useMedia(query: string): boolean {
  const follow = useCallback(
    (changed: () => void) => {
      const media = matchMedia(query);
      media.addEventListener('change', changed);
      return () => media.removeEventListener('change', changed);
    },
    [query],
  );
  return useSyncExternalStore(follow, () => matchMedia(query).matches);
}

/** A phone, or a tablet held upright: the drawing has the room, and all else stands about it. */
export const useNarrow = (): boolean => useMedia(NARROW);
