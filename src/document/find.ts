import type { Block, Project } from './project.ts';

export const findBlock = (project: Project, blockId: string): Block | null =>
  project.blocks.find((block) => block.id === blockId) ?? null;

/**
 * The project with one block changed. The same project comes back when there is no such block or when the
 * change gives the same block back, so callers can tell by identity whether anything happened.
 */
export function changeBlock(project: Project, blockId: string, change: (block: Block) => Block): Project {
  const block = findBlock(project, blockId);
  if (block === null) return project;
  const changed = change(block);
  if (changed === block) return project;
  return { ...project, blocks: project.blocks.map((other) => (other === block ? changed : other)) };
}
