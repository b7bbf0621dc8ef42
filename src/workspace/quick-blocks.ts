import type { Block } from '../piecing/block.ts';
import { isSoonPieced } from '../piecing/piece.ts';
import type { PieceMemory } from '../piecing/piece-memory.ts';
import type { PiecingPlan } from '../piecing/plan.ts';
import { session } from './session.ts';

/** So many cuts are pieced while the pointer moves, without a look at the clock, where no patches hold each other. */
const QUICK_CUTS = 40;

/** A block of up to twice so many is a small one. */
const SMALL_CUTS = 2 * QUICK_CUTS;

/** One that lately took no longer than this is pieced while the pointer moves, ms; a small one is drawn sooner. */
const QUICK_SMALL_MS = 10;
const QUICK_MS = 7;

/** Is the drawing one whose plan is soon made, as `isSoonPieced` has it? Found once for each state of the open block. */
const isSoon = new WeakMap<Block, boolean>();

/**
 * What piecing each block took the last two times, the later first, by its id: apart for states whose plan is soon made
 * and for others, since a line that moves may close a ring from one moment to the next.
 */
const timesOf = new Map<string, readonly [number, number]>();

const keyOf = (block: Block, soon: boolean): string => `${soon ? 'soon' : 'held'} ${block.id}`;

/** Notes how long piecing a block took, ms. */
export function noteTime(block: Block, ms: number, plan: PiecingPlan): void {
  const key = keyOf(block, isSoon.get(block) ?? plan.verdict !== 'set-in-seams');
  timesOf.set(key, [ms, timesOf.get(key)?.[0] ?? ms]);
}

/**
 * Is a block pieced at once when it is asked for? The open one, if that takes less time than its drawing can wait; many
 * others wait for the worker, whatever each would take. One that was slow a moment ago may be again a hair further
 * on: of a large one both last plans must have been quick. One long pause, for tidying up or for code that runs the
 * first time, says nothing of a small one: there one of the two will do. `memory`: that of whoever will piece it.
 */
export function isPiecedAtOnce(block: Block, memory: PieceMemory): boolean {
  if (block.id !== session.getState().blockId) return false;
  const { length } = block.cuts;
  const [whenSoon, whenHeld] = [true, false].map((soon) => timesOf.get(keyOf(block, soon)));
  const isQuickSoon = whenSoon === undefined ? length <= QUICK_CUTS : isQuick(length, whenSoon);
  const isQuickHeld = whenHeld !== undefined && isQuick(length, whenHeld);
  if (isQuickSoon === isQuickHeld) return isQuickSoon;
  const soon = isSoon.get(block) ?? isSoonPieced(block, memory);
  isSoon.set(block, soon);
  return soon ? isQuickSoon : isQuickHeld;
}

const isQuick = (length: number, times: readonly [number, number]): boolean =>
  length <= SMALL_CUTS ? Math.min(...times) <= QUICK_SMALL_MS : Math.max(...times) <= QUICK_MS;
