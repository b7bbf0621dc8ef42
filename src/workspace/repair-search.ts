import { createStore } from 'zustand/vanilla';
import type { Block } from '../piecing/block.ts';
import type { Repair } from '../piecing/repairs/repair.ts';
import type { PieceSettings } from './piece-settings.ts';
import { dropRepairs, searchForRepairs } from './piecing-client.ts';

/** What has been found to mend one state of a block, and how far the search is. */
export interface RepairSearch {
  /** The state of the block it is about; null before any search. */
  readonly block: Block | null;
  readonly settings: PieceSettings | null;
  readonly repairs: readonly Repair[];
  /** 0 … 1 while the search runs, null when it is over. */
  readonly share: number | null;
}

export const repairSearch = createStore<RepairSearch>(() => ({
  block: null,
  settings: null,
  repairs: [],
  share: null,
}));

/** How long a drawing must rest before repairs are looked for, ms. */
const REST_MS = 150;

/** What was found, for as long as the state of the block is remembered somewhere, such as in the history. */
const found = new WeakMap<Block, { readonly settings: PieceSettings; readonly repairs: readonly Repair[] }>();

/** Looks for what would mend a block, into `repairSearch`. Returns a function that stops it. */
export function lookForRepairs(block: Block, settings: PieceSettings): () => void {
  const known = found.get(block);
  if (known?.settings === settings) {
    repairSearch.setState({ block, settings, repairs: known.repairs, share: null });
    return () => undefined;
  }
  let isWanted = true;
  const timer = setTimeout(() => {
    repairSearch.setState({ block, settings, repairs: [], share: 0 });
    void searchForRepairs({ block, settings }, (share) => {
      if (isWanted) repairSearch.setState({ share });
    }).then(
      (repairs) => {
        if (repairs) found.set(block, { settings, repairs });
        if (isWanted) repairSearch.setState({ repairs: repairs ?? [], share: null });
      },
      () => {
        if (isWanted) repairSearch.setState({ share: null });
      },
    );
  }, REST_MS);
  return () => {
    isWanted = false;
    clearTimeout(timer);
    if (repairSearch.getState().block === block && repairSearch.getState().share !== null) {
      dropRepairs();
      repairSearch.setState({ share: null });
    }
  };
}
