import { lazyDialog } from '../lazy-dialog.tsx';

/** What a new block is to be: its shape, its size, its name. */
export const NewBlockDialog = lazyDialog(() => import('./new-block-dialog.tsx'));
