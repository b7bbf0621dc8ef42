import { phrase } from '../words/phrase.ts';
import { MIRRORS, turnedBlock } from './edit-turn.ts';
import type { Block, Project } from './project.ts';
import { type BlockPlace, isBlockPlace } from './quilt.ts';

/**
 * A block as it is made turned over, where a quilt shows it mirrored: it has papers and copies of its own and no
 * drawing of its own. What is in hand, on paper and in work knows it by an id made from that of its block.
 */

const MARK = '~';

export const turnedOverId = (block: string): string => `${block}${MARK}`;

/** What is made for a place: its block, or the block turned over. */
export const madeFor = ({ block, mirrored }: Pick<BlockPlace, 'block' | 'mirrored'>): string =>
  mirrored ? turnedOverId(block) : block;

/** The id of the block that is drawn for what is made. */
export function drawnFor({ blocks }: Pick<Project, 'blocks'>, id: string): string {
  if (!id.endsWith(MARK) || blocks.some((block) => block.id === id)) return id;
  return id.slice(0, -MARK.length);
}

/** Whether a block is one turned over, as it is kept where it is made. */
export const isTurnedOver = ({ id }: Pick<Block, 'id'>): boolean => id.endsWith(MARK);

const images = new WeakMap<Block, Block>();

/** The mirror image of a block, left for right, the same object for the same block. */
export function turnedOver(block: Block): Block {
  const known = images.get(block);
  if (known !== undefined) return known;
  const name = phrase('{block}, mirrored', { block: block.name });
  const image = { ...turnedBlock(block, MIRRORS.upright), id: turnedOverId(block.id), name };
  images.set(block, image);
  return image;
}

/** What is made by this id: a block of the project or one of them turned over; null where there is none. */
export function blockMade({ blocks }: Pick<Project, 'blocks'>, id: string): Block | null {
  const own = blocks.find((block) => block.id === id);
  if (own !== undefined) return own;
  const drawn = blocks.find((block) => turnedOverId(block.id) === id);
  return drawn === undefined ? null : turnedOver(drawn);
}

/** All that can be made: every block, followed by itself turned over where the quilt shows that, or it is among `copies`. */
export function blocksToMake(
  { blocks, quilt }: Pick<Project, 'blocks' | 'quilt'>,
  copies?: ReadonlyMap<string, number>,
): readonly Block[] {
  const shown = new Set((quilt?.places ?? []).filter(isBlockPlace).map(madeFor));
  return blocks.flatMap((block) => {
    const id = turnedOverId(block.id);
    const isMade = (shown.has(id) || copies?.has(id)) && !blocks.some((other) => other.id === id);
    return isMade ? [block, turnedOver(block)] : [block];
  });
}
