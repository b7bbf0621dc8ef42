import { lockPicture, removeUnderPicture, showPicture } from '../document/edit-picture.ts';
import type { Block, UnderPicture } from '../document/project.ts';
import { phrase } from '../words/phrase.ts';
import { edit } from '../workspace/actions.ts';
import { announce, blockOnSheet } from './board-state.ts';

/** What is done with the picture under the block on the sheet. */

/** The block on the sheet with the picture under it; null where there is none. */
export function tracedBlock(): (Block & { readonly picture: UnderPicture }) | null {
  const block = blockOnSheet();
  return block?.picture === undefined ? null : { ...block, picture: block.picture };
}

export const canChangePicture = (): boolean => tracedBlock()?.picture.locked === false;

export function toggleShown(): void {
  const block = tracedBlock();
  if (block === null) return;
  const shown = !block.picture.shown;
  edit(shown ? phrase('Show picture') : phrase('Hide picture'), (project) =>
    showPicture(project, block.id, shown),
  );
  announce(shown ? phrase('The picture is shown.') : phrase('The picture is hidden.'));
}

export function toggleLocked(): void {
  const block = tracedBlock();
  if (block === null) return;
  const locked = !block.picture.locked;
  edit(locked ? phrase('Lock picture') : phrase('Unlock picture'), (project) =>
    lockPicture(project, block.id, locked),
  );
  announce(locked ? phrase('The picture is locked.') : phrase('The picture is unlocked.'));
}

export function takePictureAway(): void {
  const block = tracedBlock();
  if (block === null || block.picture.locked) return;
  edit(phrase('Take the picture away'), (project) => removeUnderPicture(project, block.id));
  announce(phrase('The picture is taken away. Undo brings it back.'));
}
