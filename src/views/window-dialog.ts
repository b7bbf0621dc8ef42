import { createStore } from 'zustand/vanilla';

/** A dialog of the whole window, over whatever place is in sight. */
export type WindowDialog = 'palette' | 'help' | 'projects' | 'earlier' | 'share' | 'shared';

export const windowDialog = createStore<{ readonly open: WindowDialog | null }>(() => ({ open: null }));

export function openWindowDialog(open: WindowDialog): void {
  windowDialog.setState({ open });
}

export function closeWindowDialog(): void {
  windowDialog.setState({ open: null });
}
