import { phrase } from '../words/phrase.ts';
import { duplicateBlock, renameBlock } from './edit-block.ts';
import { changeQuilt, quiltOf } from './edit-quilt.ts';
import { changeBlock } from './find.ts';
import { nextBlockId } from './ids.ts';
import type { Project } from './project.ts';
import { isBlockPlace, type Quilt, type QuiltCopy } from './quilt.ts';
import { madeFor } from './turned-over.ts';

/** Ids of the blocks that a quilt shows, in the order they first come. */
const blocksShown = ({ places }: Quilt): string[] => [
  ...new Set(places.flatMap((place) => (isBlockPlace(place) ? [place.block] : []))),
];

/**
 * Makes the blocks of a quilt beside the first in its own fabrics, each a block of its own, so that cutting and papers
 * count them in those. `index` is that of the copy. Nothing changes where it has the same fabrics, or its blocks already.
 */
export function makeCopyBlocks(project: Project, index: number): Project {
  const quilt = quiltOf(project);
  const copy = quilt.copies?.[index];
  if (copy === undefined || copy.blocks !== undefined || Object.keys(copy.fabrics).length === 0)
    return project;
  const blocks: Record<string, string> = {};
  let made = project;
  for (const from of blocksShown(quilt)) {
    const id = nextBlockId(made);
    const name = made.blocks.find((block) => block.id === from)!.name;
    made = renameBlock(
      duplicateBlock(made, from),
      id,
      phrase('{name}, quilt {index}', { name, index: index + 2 }),
    );
    made = changeBlock(made, id, (block) => ({
      ...block,
      patches: block.patches.map((patch) =>
        patch.fabric === undefined ? patch : { ...patch, fabric: copy.fabrics[patch.fabric] ?? patch.fabric },
      ),
    }));
    blocks[from] = id;
  }
  return changeQuilt(made, (old) => ({
    ...old,
    copies: old.copies!.map((one, k) => (k === index ? { ...one, blocks } : one)),
  }));
}

/** How many of each block, and of each turned over, are made for the quilt and those beside it; none without one. */
export function copiesForQuilts({
  quilt,
  blocks: all,
}: Pick<Project, 'quilt' | 'blocks'>): ReadonlyMap<string, number> {
  const counts = new Map<string, number>();
  if (!quilt) return counts;
  const isThere = (block: string): boolean => all.some(({ id }) => id === block);
  const add = (block: string): void => {
    counts.set(block, (counts.get(block) ?? 0) + 1);
  };
  const quilts: readonly Pick<QuiltCopy, 'blocks'>[] = [{}, ...(quilt.copies ?? [])];
  for (const { blocks = {} } of quilts)
    for (const place of quilt.places) {
      if (!isBlockPlace(place)) continue;
      const own = blocks[place.block];
      add(
        madeFor({ mirrored: place.mirrored, block: own !== undefined && isThere(own) ? own : place.block }),
      );
    }
  return counts;
}
