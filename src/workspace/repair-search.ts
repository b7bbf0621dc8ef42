import { createStore } from 'zustand/vanilla';
import type { Block } from '../piecing/block.ts';
import type { PieceOptions } from '../piecing/options.ts';
import type { Cure } from '../piecing/repairs/cure.ts';
import type { RepairProgress } from '../piecing/repairs/find-repairs.ts';
import { drawingOf } from './drawing-of.ts';
import { dropRepairs, searchForRepairs } from './piecing-client.ts';

/** What has been found to mend one state of a block, and how far the search is. */
export interface RepairSearch {
  /** The state of the block it is about; null before any search. */
  readonly block: Block | null;
  readonly options: PieceOptions | null;
  /** While it is looking, what has been found by now. */
  readonly repairs: readonly Cure[];
  readonly state: 'looking' | 'stopped' | 'done';
  /** How many changes have been tried, of how many. */
  readonly progress: RepairProgress;
  /** It has been looking for so long that a person wonders. */
  readonly isLong: boolean;
}

const NOTHING_TRIED: RepairProgress = { tried: 0, total: 0 };

export const repairSearch = createStore<RepairSearch>(() => ({
  block: null,
  options: null,
  repairs: [],
  state: 'done',
  progress: NOTHING_TRIED,
  isLong: false,
}));

/** How long a drawing must rest before repairs are looked for, ms. */
const REST_MS = 150;

/** A search that takes longer says how far it is, ms. */
const LONG_MS = 500;

/** What was found, for as long as the state of the block is remembered somewhere, such as in the history. */
const found = new WeakMap<Block, { readonly options: PieceOptions; readonly repairs: readonly Cure[] }>();

/** Numbers the searches: what comes of one that is no longer wanted is not shown. */
let wanted = 0;

/** Looks for what would mend a block, into `repairSearch`. Returns a function that stops it. */
export function lookForRepairs(block: Block, options: PieceOptions): () => void {
  const known = found.get(drawingOf(block));
  if (known?.options === options) {
    wanted++;
    repairSearch.setState({ block, options, repairs: known.repairs, state: 'done', isLong: false });
    return () => undefined;
  }
  const timer = setTimeout(() => search(block, options), REST_MS);
  return () => {
    clearTimeout(timer);
    if (repairSearch.getState().block === block) stopLooking();
  };
}

/** Stops the search that runs, for a person who does not want to wait. */
export function stopLooking(): void {
  if (repairSearch.getState().state !== 'looking') return;
  wanted++;
  dropRepairs();
  repairSearch.setState({ state: 'stopped' });
}

/** Begins a search that was stopped anew. */
export function lookAgain(): void {
  const { block, options, state } = repairSearch.getState();
  if (state === 'stopped' && block !== null && options !== null) search(block, options);
}

function search(block: Block, options: PieceOptions): void {
  const mine = ++wanted;
  const tell = (news: Partial<RepairSearch>): void => {
    if (mine === wanted) repairSearch.setState(news);
  };
  tell({ block, options, repairs: [], state: 'looking', progress: NOTHING_TRIED, isLong: false });
  setTimeout(() => {
    if (repairSearch.getState().state === 'looking') tell({ isLong: true });
  }, LONG_MS);
  let isOver = false;
  void searchForRepairs({ block: drawingOf(block), options }, ({ cures, ...progress }) => {
    // News comes by another way than the result, and may come after it.
    if (!isOver) tell({ progress, ...(cures ? { repairs: cures } : {}) });
  }).then(
    (repairs) => {
      isOver = true;
      if (repairs) found.set(drawingOf(block), { options, repairs });
      tell({ repairs: repairs ?? [], state: repairs ? 'done' : 'stopped' });
    },
    () => tell({ state: 'stopped' }),
  );
}
