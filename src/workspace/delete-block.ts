import { removeBlock } from '../document/edit-block.ts';
import { placesOfBlock, quiltOf } from '../document/edit-quilt.ts';
import { findBlock } from '../document/find.ts';
import { phrase } from '../words/phrase.ts';
import { edit, say } from './actions.ts';
import { session } from './session.ts';

/** Deletes a block. Where it lay in the quilt is said: it does not vanish from there unnoticed. */
export function deleteBlock(blockId: string): void {
  const { project } = session.getState();
  const block = findBlock(project, blockId);
  if (block === null) return;
  const places = placesOfBlock(quiltOf(project), blockId);
  edit(phrase('Delete block'), (before) => removeBlock(before, blockId));
  const lay =
    places === 0
      ? ''
      : places === 1
        ? phrase(', which lay in one place of the quilt: it is empty now')
        : phrase(', which lay in {places} places of the quilt: they are empty now', { places });
  say('done', phrase('Deleted ‘{block}’{lay}. Undo brings it back.', { block: block.name, lay }));
}
