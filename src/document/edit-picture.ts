import type { Quad } from '../geometry/homography.ts';
import type { UnderPicture } from '../piecing/block.ts';
import { changeBlock, findBlock } from './find.ts';
import type { Project } from './project.ts';
import { checkUnderPicture, checkUnderRoom, pictureSpot } from './under-picture.ts';

/**
 * Lays a picture under a block, in the place of one that lies there. Nothing changes when it cannot be kept, by
 * `checkUnderPicture` and `checkUnderRoom`, or when the one that lies there is locked.
 */
export function layPicture(project: Project, blockId: string, picture: UnderPicture): Project {
  const laid = { ...picture, corners: onSteps(picture.corners) };
  if (isPictureLocked(project, blockId)) return project;
  if (!checkUnderPicture(laid).ok || !checkUnderRoom(project, blockId, laid.data).ok) return project;
  return changeBlock(project, blockId, (block) => ({ ...block, picture: laid }));
}

/** Squares the picture up by other corners: the places in it that lie at the corners of the block's box. */
export function squarePicture(project: Project, blockId: string, corners: Quad): Project {
  return changePicture(project, blockId, (picture) =>
    picture.locked ? picture : { ...picture, corners: onSteps(corners) },
  );
}

/** How strongly the picture shows: 0 not at all, 1 as it is. */
export const fadePicture = (project: Project, blockId: string, strength: number): Project =>
  changePicture(project, blockId, (picture) =>
    picture.strength === strength ? picture : { ...picture, strength },
  );

export const showPicture = (project: Project, blockId: string, shown: boolean): Project =>
  changePicture(project, blockId, (picture) => (picture.shown === shown ? picture : { ...picture, shown }));

/** A locked picture is neither squared up anew nor taken away nor replaced; it can still be faded and hidden. */
export const lockPicture = (project: Project, blockId: string, locked: boolean): Project =>
  changePicture(project, blockId, (picture) =>
    picture.locked === locked ? picture : { ...picture, locked },
  );

/** Takes the picture under a block away, unless it is locked. */
export function removeUnderPicture(project: Project, blockId: string): Project {
  if (isPictureLocked(project, blockId)) return project;
  return changeBlock(project, blockId, (block) => {
    if (block.picture === undefined) return block;
    const { picture: _, ...bare } = block;
    return bare;
  });
}

export const isPictureLocked = (project: Project, blockId: string): boolean =>
  findBlock(project, blockId)?.picture?.locked === true;

function changePicture(
  project: Project,
  blockId: string,
  change: (picture: UnderPicture) => UnderPicture,
): Project {
  return changeBlock(project, blockId, (block) => {
    if (block.picture === undefined) return block;
    const picture = change(block.picture);
    return picture === block.picture || !checkUnderPicture(picture).ok ? block : { ...block, picture };
  });
}

const onSteps = ([a, b, c, d]: Quad): Quad => [
  pictureSpot(a),
  pictureSpot(b),
  pictureSpot(c),
  pictureSpot(d),
];
