import { innerSpot } from '../geometry/inner-spot.ts';
import type { Ring } from '../geometry/point.ts';
import { phrase } from '../words/phrase.ts';
import { withoutCopies } from './edit-copies.ts';
import { withoutBlock } from './edit-quilt.ts';
import { changeBlock, findBlock } from './find.ts';
import { freePatchIds, nextBlockId } from './ids.ts';
import { BLOCKS_PER_PROJECT, checkName } from './limits.ts';
import { cleanOutline } from './outline.ts';
import { patchesOf } from './patches-of.ts';
import type { Block, Project } from './project.ts';
import { checkUnderRoom } from './under-picture.ts';

export interface NewBlock {
  readonly name: string;
  /** Inches, front view, at least three points within the coordinate limit. */
  readonly outline: Ring;
}

/** Adds an undivided block at the end; its id is `nextBlockId(project)`. An unusable outline or name, or one block too many, changes nothing. */
export function addBlock(project: Project, { name, outline }: NewBlock): Project {
  const ring = cleanOutline(outline);
  const checked = checkName(name);
  if (ring === null || !checked.ok || isFull(project)) return project;
  const bare = { id: nextBlockId(project), name: checked.value, outline: ring, cuts: [] };
  const ids = freePatchIds([]);
  const patches = patchesOf(bare).map((area) => ({ id: ids.next().value, at: innerSpot(area) }));
  const block: Block = { ...bare, patches };
  return { ...project, blocks: [...project.blocks, block] };
}

const isFull = (project: Project): boolean => project.blocks.length >= BLOCKS_PER_PROJECT;

export function renameBlock(project: Project, blockId: string, name: string): Project {
  const checked = checkName(name);
  if (!checked.ok) return project;
  return changeBlock(project, blockId, (block) =>
    block.name === checked.value ? block : { ...block, name: checked.value },
  );
}

/**
 * A copy right after the block, named as its copy; its id is `nextBlockId(project)`. The picture under the block is
 * copied too while there is room for it.
 */
export function duplicateBlock(project: Project, blockId: string): Project {
  const block = findBlock(project, blockId);
  if (block === null || isFull(project)) return project;
  const { picture, ...bare } = block;
  const hasRoom = picture !== undefined && checkUnderRoom(project, null, picture.data).ok;
  const copy: Block = {
    ...(hasRoom ? block : bare),
    id: nextBlockId(project),
    name: copyName(project, block.name),
  };
  return {
    ...project,
    blocks: project.blocks.flatMap((other) => (other === block ? [block, copy] : [other])),
  };
}

/** `Gull` → `Gull copy` → `Gull copy 2`: the first name no block has. */
function copyName(project: Project, name: string): string {
  const taken = new Set(project.blocks.map((block) => block.name));
  const ending = phrase('[[after the name of a block]] copy');
  const first = name.replace(/ \d+$/, '').endsWith(` ${ending}`) ? name.replace(/ \d+$/, '') : name;
  const stem = first.endsWith(` ${ending}`) ? first : `${name} ${ending}`;
  let candidate = stem;
  for (let n = 2; taken.has(candidate); n++) candidate = `${stem} ${n}`;
  const checked = checkName(candidate);
  return checked.ok ? checked.value : name;
}

/** Takes a block away. Its places in the quilt stay, plain and empty. */
export function removeBlock(project: Project, blockId: string): Project {
  const blocks = project.blocks.filter((block) => block.id !== blockId);
  if (blocks.length === project.blocks.length) return project;
  const { quilt, inHand } = project;
  return {
    ...project,
    blocks,
    ...(inHand && { inHand: withoutCopies(inHand, blockId) }),
    ...(quilt && { quilt: withoutBlock(quilt, blockId, project.blocks) }),
  };
}

/** Moves a block so that it stands at `index` (0 first) in the project; past the ends means at the end. */
export function moveBlock(project: Project, blockId: string, index: number): Project {
  const block = findBlock(project, blockId);
  if (block === null || !Number.isFinite(index)) return project;
  const others = project.blocks.filter((other) => other !== block);
  const to = Math.max(0, Math.min(Math.round(index), others.length));
  if (project.blocks[to] === block) return project;
  return { ...project, blocks: [...others.slice(0, to), block, ...others.slice(to)] };
}
