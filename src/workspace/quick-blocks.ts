import type { Block } from '../piecing/block.ts';
import { session } from './session.ts';

/** So many cuts are pieced while the pointer moves, without a look at the clock. */
const QUICK_CUTS = 40;

/** A block of up to twice so many is a small one. */
const SMALL_CUTS = 2 * QUICK_CUTS;

/** One that lately took no longer than this is pieced while the pointer moves, ms; a small one is drawn sooner. */
const QUICK_SMALL_MS = 10;
const QUICK_MS = 7;

/** What piecing each block took the last two times, the later first, by its id. */
const timesOf = new Map<string, readonly [number, number]>();

/** Notes how long piecing a block took, ms. */
export function noteTime(blockId: string, ms: number): void {
  timesOf.set(blockId, [ms, timesOf.get(blockId)?.[0] ?? ms]);
}

/**
 * Is a block pieced at once when it is asked for? The open one, if that takes less time than its drawing can wait; many
 * others wait for the worker, whatever each would take. One that was slow a moment ago may be again a hair further
 * on, as where a moving line closes a ring: of a large one both last plans must have been quick. One long pause, for
 * tidying up or for code that runs the first time, says nothing of a small one: there one of the two will do.
 */
export function isPiecedAtOnce(block: Block): boolean {
  if (block.id !== session.getState().blockId) return false;
  const { length } = block.cuts;
  const times = timesOf.get(block.id);
  if (times === undefined) return length <= QUICK_CUTS;
  return length <= SMALL_CUTS ? Math.min(...times) <= QUICK_SMALL_MS : Math.max(...times) <= QUICK_MS;
}
