import type { Block, Project } from '../document/project.ts';

/** Drawings without their pictures, by the block they are of, and the last one by its cuts. */
const known = new WeakMap<Block, Block>();
const lastWith = new WeakMap<Block['cuts'], Block>();

/**
 * The block as it is sewn and printed, without the picture laid under it: what plans are remembered by, and what goes
 * to a worker. The same object for two states of a block that differ in nothing but the picture.
 */
export function drawingOf(block: Block): Block {
  if (block.picture === undefined) {
    lastWith.set(block.cuts, block);
    return block;
  }
  const made = known.get(block);
  if (made !== undefined) return made;
  const { picture: _, ...bare } = block;
  const last = lastWith.get(block.cuts);
  const drawing = last !== undefined && isSame(last, bare) ? last : bare;
  known.set(block, drawing);
  lastWith.set(block.cuts, drawing);
  return drawing;
}

const isSame = (a: Block, b: Block): boolean => {
  const keys = new Set([...Object.keys(a), ...Object.keys(b)]) as Set<keyof Block>;
  return [...keys].every((key) => a[key] === b[key]);
};

/** The project with no picture under any block. */
export const drawingsOnly = (project: Project): Project =>
  project.blocks.every(({ picture }) => picture === undefined)
    ? project
    : { ...project, blocks: project.blocks.map(drawingOf) };
