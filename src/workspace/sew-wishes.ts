import * as z from 'zod/mini';
import { createStore } from 'zustand/vanilla';

/** What a person wishes beside this machine, and how fast they sew. Kept in this browser, like the choice of a printer. */
export interface SewWishes {
  readonly isSpoken: boolean;
  /** What the timer saw of the work before: seconds, and patches sewn in them. */
  readonly pace: { readonly seconds: number; readonly patches: number } | null;
}

const KEY = 'underpaper-sew';

const count = z.number().check(z.nonnegative());

const keptWishes = z.object({
  isSpoken: z.catch(z.boolean(), false),
  pace: z.catch(z.nullable(z.object({ seconds: count, patches: count })), null),
});

function known(): SewWishes {
  try {
    return keptWishes.parse(JSON.parse(localStorage.getItem(KEY) ?? '{}'));
  } catch {
    return { isSpoken: false, pace: null };
  }
}

export const sewWishes = createStore<SewWishes>(known);

sewWishes.subscribe((wishes) => {
  try {
    localStorage.setItem(KEY, JSON.stringify(wishes));
  } catch {
    // Storage is full or closed: the wish lasts while the window is open.
  }
});
