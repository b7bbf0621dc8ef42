import { createStore } from 'zustand/vanilla';
import type { Sheet } from '../making/piece-options.ts';

/** The sheet chosen for printing; null until one is, which means the usual one of the project's unit. */
export const chosenSheet = createStore<{ readonly sheet: Sheet | null }>(() => ({ sheet: null }));
