import { createStore } from 'zustand/vanilla';
import type { Point } from '../geometry/point.ts';
import { goTo } from './actions.ts';
import type { ReadPicture } from './read-picture.ts';
import { onOtherProject } from './session.ts';

/** A dialog of the Block place that a command, a menu or a dropped file can ask for. */
export type AskedDialog =
  | { readonly kind: 'shelf' }
  | { readonly kind: 'bring-in'; readonly fileName: string; readonly text: string }
  | { readonly kind: 'elsewhere' }
  /** Parts of drawings that all projects of this browser share. */
  | { readonly kind: 'motifs' }
  | { readonly kind: 'recolour' }
  /** A block made from a picture; null until one is chosen. */
  | { readonly kind: 'from-picture'; readonly file: Blob | null }
  /** A patch, by a spot in it, to be divided so that it follows the picture under it. */
  | { readonly kind: 'follow-picture'; readonly blockId: string; readonly at: Point }
  /** A picture to be squared up and laid under a block; null for the one that lies there. */
  | { readonly kind: 'under-picture'; readonly blockId: string; readonly picture: ReadPicture | null }
  /** The picture of a fabric: the one it has, or a file that was dropped or pasted. */
  | { readonly kind: 'fabric-picture'; readonly fabricId: string; readonly file: Blob | null };

/** Which dialog is asked for; null when none is. */
export const dialogs = createStore<{ readonly asked: AskedDialog | null }>(() => ({ asked: null }));

// It asks about blocks and fabrics of the project that was open.
onOtherProject(() => closeDialog());

export function askFor(asked: AskedDialog): void {
  goTo('block');
  dialogs.setState({ asked });
}

export function closeDialog(): void {
  dialogs.setState({ asked: null });
}
