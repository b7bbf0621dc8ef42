import { isPictureLocked } from '../document/edit-picture.ts';
import { oneLine } from '../document/file-place.ts';
import { findBlock } from '../document/find.ts';
import { checkUnderRoom } from '../document/under-picture.ts';
import { phrase } from '../words/phrase.ts';
import { say } from './actions.ts';
import { askFor } from './dialogs.ts';
import { readPicture } from './read-picture.ts';
import { session } from './session.ts';

/** A file as the browser hands it over; one from the clipboard may have no name. */
export interface PictureFile extends Blob {
  readonly name?: string;
}

/** Whether a file gives itself out as a picture of pixels: what it is in truth is told when it is read. */
export const isPictureFile = ({
  name = '',
  type,
}: {
  readonly name?: string;
  readonly type: string;
}): boolean =>
  !/svg/i.test(type) &&
  (type.startsWith('image/') || /\.(png|jpe?g|webp|gif|bmp|tiff?|hei[cf]|avif)$/i.test(name));

/** Lets the person choose a picture to lay under the open block. Settles when the choice is made or called off. */
export function choosePicture(): Promise<void> {
  return new Promise((resolve) => {
    const input = document.createElement('input');
    input.type = 'file';
    input.accept = 'image/png,image/jpeg,image/webp';
    input.addEventListener('cancel', () => resolve());
    input.addEventListener('change', () => {
      const file = input.files?.[0];
      if (file === undefined) resolve();
      else void takePicture(file).then(() => resolve());
    });
    input.click();
  });
}

/**
 * Reads a chosen, dropped or pasted picture and asks how it is to be squared up to the open block. One that cannot be
 * used changes nothing and a notice says why.
 */
export async function takePicture(file: PictureFile): Promise<void> {
  const named = file.name === undefined ? phrase('The picture') : `‘${oneLine(file.name)}’`;
  const refused = (reason: string): void =>
    say('trouble', phrase('{named} was not laid under the drawing. {reason}', { named, reason }));
  const { project, blockId } = session.getState();
  if (blockId === null || findBlock(project, blockId) === null) return refused(phrase('Open a block first.'));
  if (isPictureLocked(project, blockId))
    return refused(phrase('The picture that lies there is locked: unlock it first.'));
  const read = await readPicture(file);
  if (!read.ok) return refused(read.error);
  const room = checkUnderRoom(session.getState().project, blockId, read.picture.data);
  if (!room.ok) return refused(room.error);
  askFor({ kind: 'under-picture', blockId, picture: read.picture });
}

/** Asks for other corners of the picture that lies under the open block. */
export function squareAgain(): void {
  const { project, blockId } = session.getState();
  const picture = blockId === null ? undefined : findBlock(project, blockId)?.picture;
  if (blockId !== null && picture !== undefined && !picture.locked)
    askFor({ kind: 'under-picture', blockId, picture: null });
}
