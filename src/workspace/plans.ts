import { createStore } from 'zustand/vanilla';
import { pieceOptionsOf } from '../making/piece-options.ts';
import type { Block } from '../piecing/block.ts';
import { brokenPlan } from '../piecing/broken.ts';
import { optionsKey, type PieceOptions } from '../piecing/options.ts';
import { piece } from '../piecing/piece.ts';
import type { PiecingPlan } from '../piecing/plan.ts';
import { chosenSheet } from './chosen-sheet.ts';
import { drawingOf } from './drawing-of.ts';
import { newestFirst } from './newest-first.ts';
import { abandonPlan, type MadePlan, makePlan, type PieceOrder } from './piecing-client.ts';
import { session, shownProject } from './session.ts';

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

/** So many cuts are pieced while the pointer moves, without a look at the clock. */
const QUICK_CUTS = 40;

/** A block of up to twice so many is a small one. */
const SMALL_CUTS = 2 * QUICK_CUTS;

/** One that lately took no longer than this is pieced while the pointer moves, ms; a small one is drawn sooner. */
const QUICK_SMALL_MS = 10;
const QUICK_MS = 7;

/** A plan that a newer drawing has overtaken may take this long, ms. */
const PATIENCE_MS = 1200;

/** Plans hold for the options they were made with: colours (light is sewn before dark), severities, paper. */
let known: {
  readonly options: PieceOptions;
  readonly key: string;
  readonly plans: WeakMap<Block, PiecingPlan>;
} = withPresentOptions();
let knownFor: readonly unknown[] = [];

function withPresentOptions() {
  const options = pieceOptionsOf(shownProject(session.getState()), chosenSheet.getState().sheet);
  return { options, key: optionsKey(options), plans: new WeakMap<Block, PiecingPlan>() };
}

/** The options as they are now, and the plans made with them. */
function present(): typeof known {
  const { fabrics, severities, seamAllowance, unit } = shownProject(session.getState());
  const parts = [fabrics, severities, seamAllowance, unit, chosenSheet.getState().sheet];
  if (parts.every((part, k) => part === knownFor[k]) && knownFor.length > 0) return known;
  knownFor = parts;
  const next = withPresentOptions();
  if (next.key !== known.key) known = next;
  return known;
}

/** What the plan of a block hangs on at this moment; the same object as long as it is the same. */
export const pieceOptions = (): PieceOptions => present().options;

/** So many states of one block keep their plans; one that undo brings back from further is pieced again. */
const MOST_STATES = 8;

const statesOf = new Map<string, readonly Block[]>();

/**
 * Remembers the plan of a state of a block, and lets go of the one that was made longest ago; never of the recorded
 * state's, which what stands still during a gesture goes on showing.
 */
function keepPlan(block: Block, plan: PiecingPlan): void {
  const { plans } = present();
  plans.set(block, plan);
  const open = session.getState().project.blocks.find(({ id }) => id === block.id);
  const recorded = open === undefined ? null : drawingOf(open);
  const states = [...(statesOf.get(block.id) ?? []).filter((state) => state !== block), block];
  const others = states.filter((state) => state !== recorded);
  const gone = new Set(others.slice(0, -MOST_STATES));
  for (const state of gone) plans.delete(state);
  statesOf.set(
    block.id,
    states.filter((state) => !gone.has(state)),
  );
}

/** The last plan of each block, by its id, and what making the last two took, the later first. */
const lastOf = new Map<string, PlannedBlock>();
const msOf = new Map<string, readonly [number, number]>();

/** Counts the plans that have come for each block, so that whoever shows one can watch for the next. */
export const landings = createStore<{ readonly of: ReadonlyMap<string, number> }>(() => ({ of: new Map() }));

const queue = newestFirst<PieceOrder, MadePlan>({
  make: makePlan,
  abandon: abandonPlan,
  patienceMs: PATIENCE_MS,
  isFirst: (blockId) => blockId === session.getState().blockId,
  onMade: (blockId, { block, options }, { plan, ms }, isNewest) => {
    noteTime(blockId, ms);
    if (options === present().options) keepPlan(block, plan);
    if (isNewest || queue.isWaiting(blockId)) land(block, plan);
  },
  onFailed: (_, { block }) => {
    const plan = brokenPlan(
      'plan-failed',
      block.outline[0] ?? [0, 0],
      'This drawing could not be worked out. Undo brings the one before it back.',
    );
    keepPlan(block, plan);
    land(block, plan);
  },
});

function remember(block: Block, plan: PiecingPlan): PlannedBlock {
  const last = lastOf.get(block.id);
  if (last?.block === block && last.plan === plan) return last;
  const planned = { block, plan };
  lastOf.set(block.id, planned);
  return planned;
}

function land(block: Block, plan: PiecingPlan): void {
  remember(block, plan);
  const { of } = landings.getState();
  landings.setState({ of: new Map(of).set(block.id, (of.get(block.id) ?? 0) + 1) });
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

function noteTime(blockId: string, ms: number): void {
  msOf.set(blockId, [ms, msOf.get(blockId)?.[0] ?? ms]);
}

/**
 * Is a block pieced in less time than its drawing can wait? One that was slow a moment ago may be again a hair further
 * on, as where a moving line closes a ring: of a large one both last plans must have been quick. One long pause, for
 * tidying up or for code that runs the first time, says nothing of a small one: there one of the two will do.
 */
function isQuick(block: Block): boolean {
  const { length } = block.cuts;
  const lately = msOf.get(block.id);
  if (lately === undefined) return length <= QUICK_CUTS;
  return length <= SMALL_CUTS ? Math.min(...lately) <= QUICK_SMALL_MS : Math.max(...lately) <= QUICK_MS;
}

/**
 * The piecing plan of a block of the shown project, made at once where it is not there yet, and only once for each
 * state of the block. It changes with the options (`pieceOptions`), so whoever remembers it must watch those too.
 */
export function planOf(of: Block): PiecingPlan {
  const block = drawingOf(of);
  const { plans, options } = present();
  const made = plans.get(block);
  if (made !== undefined) return made;
  const begun = performance.now();
  const plan = piece(block, options);
  noteTime(block.id, performance.now() - begun);
  keepPlan(block, plan);
  return plan;
}

/**
 * The plan to show of a block. Of a quick block it is made at once, so that it follows the pointer; of others the last
 * plan stays until the worker has the new one, and `landings` tells when. The newest state of a block is the one that
 * is waited for.
 */
export function shownPlan(of: Block): ShownPlan {
  const block = drawingOf(of);
  const { plans, options } = present();
  const made = plans.get(block) ?? (isQuick(block) ? planOf(block) : undefined);
  if (made !== undefined) {
    queue.forget(block.id);
    return { plan: made, planned: remember(block, made), isUpdating: false };
  }
  queue.want(block.id, orderFor(block, options));
  const planned = lastPlan(block);
  return { plan: planned?.plan ?? null, planned, isUpdating: true };
}

/** The plan of this very state of a block where it has been made, asking for nothing. */
export const madePlan = (of: Block): PiecingPlan | null => present().plans.get(drawingOf(of)) ?? null;

/** The plan of a block as far as it is known, asking for nothing: for whatever works on a drawing at rest. */
export function planAtHand(of: Block): PiecingPlan | null {
  const block = drawingOf(of);
  const made = present().plans.get(block);
  if (made !== undefined) return made;
  return isQuick(block) ? planOf(block) : (lastPlan(block)?.plan ?? null);
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
