import { createStore } from 'zustand/vanilla';
import type { Block } from '../piecing/block.ts';
import { brokenPlan } from '../piecing/broken.ts';
import type { PieceOptions } from '../piecing/options.ts';
import { piece } from '../piecing/piece.ts';
import { pieceMemory } from '../piecing/piece-memory.ts';
import type { PiecingPlan } from '../piecing/plan.ts';
import { phrase } from '../words/phrase.ts';
import { drawingOf } from './drawing-of.ts';
import { isInSight } from './in-sight.ts';
import { keepPlan, keptPlan } from './kept-plans.ts';
import { newestFirst } from './newest-first.ts';
import { abandonPlan, type MadePlan, makePlan, type PieceOrder } from './piecing-client.ts';
import { pieceOptions } from './present-options.ts';
import { isPiecedAtOnce, noteTime } from './quick-blocks.ts';
import { session } from './session.ts';

/** A plan and the state of the block it is of. One object as long as it is the same plan. */
export interface PlannedBlock {
  readonly block: Block;
  readonly plan: PiecingPlan;
}

/** A plan to show, and whether a newer one is on its way. */
export interface ShownPlan {
  /** The plan of the block, or the last one there was of it; null while there has been none. */
  readonly plan: PiecingPlan | null;
  /** The same with the state it is of; null when `plan` is. */
  readonly planned: PlannedBlock | null;
  readonly isUpdating: boolean;
}

/** A plan that a newer drawing has overtaken, or that the open block waits for, may take this long, ms. */
const PATIENCE_MS = 1200;

/** What is pieced here is the open block: a few of its states. */
const memory = pieceMemory(2_000);

/** The last plan of each block, by its id. */
const lastOf = new Map<string, PlannedBlock>();

/** Counts the plans that have come for each block, so that whoever shows one can watch for the next. */
export const plansCome = createStore<{ readonly of: ReadonlyMap<string, number> }>(() => ({ of: new Map() }));

const queue = newestFirst<PieceOrder, MadePlan>({
  make: makePlan,
  abandon: abandonPlan,
  patienceMs: PATIENCE_MS,
  rankOf: (blockId) => (blockId === session.getState().blockId ? 0 : isInSight(blockId) ? 1 : 2),
  onMade: (blockId, { block, options }, { plan, ms }, isNewest) => {
    noteTime(block, ms, plan);
    keepPlan(block, options, plan);
    if (isNewest || queue.isWaiting(blockId)) tellOf(block, plan);
  },
  onFailed: (_, { block, options }) => {
    const plan = brokenPlan(
      'plan-failed',
      block.outline[0] ?? [0, 0],
      phrase('This drawing could not be worked out. Undo brings the one before it back.'),
    );
    keepPlan(block, options, plan);
    tellOf(block, plan);
  },
});

function asLast(block: Block, plan: PiecingPlan): PlannedBlock {
  const last = lastOf.get(block.id);
  if (last?.block === block && last.plan === plan) return last;
  const planned = { block, plan };
  lastOf.set(block.id, planned);
  return planned;
}

function tellOf(block: Block, plan: PiecingPlan): void {
  asLast(block, plan);
  const { of } = plansCome.getState();
  plansCome.setState({ of: new Map(of).set(block.id, (of.get(block.id) ?? 0) + 1) });
}

/**
 * The last plan of an earlier state of this block; null where the block with its id was another drawing. Edits leave
 * what they do not touch as it is, so two states of one drawing share the outline or a cut.
 */
function lastPlan(block: Block): PlannedBlock | null {
  const last = lastOf.get(block.id);
  if (last === undefined) return null;
  if (block.outline === last.block.outline) return last;
  const cuts = new Set(last.block.cuts);
  return block.cuts.some((cut) => cuts.has(cut)) ? last : null;
}

/**
 * The piecing plan of a block of the shown project, made at once where it is not there yet, and only once for each
 * state of the block. It changes with `pieceOptions`, so whoever remembers it must watch those too.
 */
export function planOf(of: Block): PiecingPlan {
  const block = drawingOf(of);
  const made = keptPlan(block);
  if (made !== undefined) return made;
  const options = pieceOptions();
  const begun = performance.now();
  const plan = piece(block, options, memory);
  noteTime(block, performance.now() - begun, plan);
  keepPlan(block, options, plan);
  return plan;
}

/**
 * The plan to show of a block, and has the newest made. The open block's is made at once where that is quick, so that
 * it follows the pointer; of others the last plan stays until the worker has the new one, and `plansCome` tells when.
 * The newest state of a block is the one that is waited for.
 */
export function requestPlan(of: Block): ShownPlan {
  const block = drawingOf(of);
  const made = keptPlan(block) ?? (isPiecedAtOnce(block, memory) ? planOf(block) : undefined);
  if (made !== undefined) {
    queue.forget(block.id);
    return { plan: made, planned: asLast(block, made), isUpdating: false };
  }
  queue.want(block.id, orderFor(block, pieceOptions()));
  const planned = lastPlan(block);
  return { plan: planned?.plan ?? null, planned, isUpdating: true };
}

/** The plan of this very state of a block where it has been made, asking for nothing. */
export const madePlan = (of: Block): PiecingPlan | null => keptPlan(drawingOf(of)) ?? null;

/** The plan of a block as far as it is known, asking for nothing: for whatever works on a drawing at rest. */
export function planAtHand(of: Block): PiecingPlan | null {
  const block = drawingOf(of);
  const made = keptPlan(block);
  if (made !== undefined) return made;
  return isPiecedAtOnce(block, memory) ? planOf(block) : (lastPlan(block)?.plan ?? null);
}

const orders = new WeakMap<Block, PieceOrder>();

/** The same order for the same state and options, so that asking twice asks once. */
function orderFor(block: Block, options: PieceOptions): PieceOrder {
  const known = orders.get(block);
  if (known?.options === options) return known;
  const order = { block, options };
  orders.set(block, order);
  return order;
}
