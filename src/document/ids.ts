import type { Block, Project } from './project.ts';

type Named = readonly { readonly id: string }[];

/**
 * The free ids of a kind, one after another: the letter, and one more than the highest number in use. A pure
 * function of what is there, so the same edit on the same project always makes the same id.
 */
function* freeIds(letter: string, used: Named): Generator<string, never> {
  const pattern = new RegExp(`^${letter}([1-9][0-9]{0,8})$`);
  let number = used.reduce((highest, { id }) => Math.max(highest, Number(pattern.exec(id)?.[1] ?? 0)), 0);
  for (;;) yield `${letter}${++number}`;
}

const nextId = (letter: string, used: Named): string => freeIds(letter, used).next().value;

export const nextBlockId = (project: Project): string => nextId('b', project.blocks);

export const nextFabricId = (project: Project): string => nextId('f', project.fabrics);

/** Cut ids are unique within their block. */
export const nextCutId = (block: Block): string => nextId('c', block.cuts);

/** The ids that new patches of a block take in turn, beside those in use. */
export const freePatchIds = (used: Named): Generator<string, never> => freeIds('p', used);

/** The ids that new cuts of a block take in turn, `nextCutId(block)` first. */
export const freeCutIds = (block: Block): Generator<string, never> => freeIds('c', block.cuts);
