import { createStore } from 'zustand/vanilla';
import { goTo } from './actions.ts';

/** A dialog of the Block place that a command, a menu or a dropped file can ask for. */
export type AskedDialog =
  | { readonly kind: 'shelf' }
  | { readonly kind: 'bring-in'; readonly fileName: string; readonly text: string }
  | { readonly kind: 'elsewhere' }
  | { readonly kind: 'recolour' };

/** Which dialog is asked for; null when none is. */
export const dialogs = createStore<{ readonly asked: AskedDialog | null }>(() => ({ asked: null }));

export function askFor(asked: AskedDialog): void {
  goTo('block');
  dialogs.setState({ asked });
}

export function closeDialog(): void {
  dialogs.setState({ asked: null });
}
