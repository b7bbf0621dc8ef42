import { phrase } from '../words/phrase.ts';
import { duplicateBlock, renameBlock } from './edit-block.ts';
import { changeQuilt, withPlaces } from './edit-quilt.ts';
import { MIRRORS, turnBlock } from './edit-turn.ts';
import { nextBlockId } from './ids.ts';
import type { Project } from './project.ts';
import { type BlockPlace, isBlockPlace, type Place } from './quilt.ts';

/**
 * Makes a block of its own of the mirror image that places show: its papers are other papers. Those places then show the
 * new block, which stands after the first; itself where none shows the mirror image.
 */
export function mirroredAsBlock(project: Project, blockId: string): Project {
  const { quilt } = project;
  const isMeant = (place: Place): place is BlockPlace =>
    isBlockPlace(place) && place.block === blockId && place.mirrored;
  if (!quilt?.places.some(isMeant)) return project;
  const id = nextBlockId(project);
  const copied = turnBlock(duplicateBlock(project, blockId), id, MIRRORS.upright);
  const name = project.blocks.find((block) => block.id === blockId)!.name;
  if (!copied.blocks.some((block) => block.id === id)) return project;
  return changeQuilt(renameBlock(copied, id, phrase('{name}, mirrored', { name })), (old) =>
    withPlaces(
      old,
      old.places.map((place) => (isMeant(place) ? { ...place, block: id, mirrored: false } : place)),
    ),
  );
}
