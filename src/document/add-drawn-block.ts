import type { Point, Ring, Segment } from '../geometry/point.ts';
import { addBlock } from './edit-block.ts';
import { addCuts } from './edit-cuts.ts';
import { paintPatches } from './edit-paint.ts';
import { nextBlockId } from './ids.ts';
import type { Project } from './project.ts';

/** A block ready drawn: from the shelf, or from a file. Inches, front view. */
export interface DrawnBlock {
  readonly name: string;
  readonly outline: Ring;
  readonly cuts: readonly Segment[];
  /** Spots in patches, by the fabric to lay there. Fabrics the project does not have are passed over. */
  readonly paint?: ReadonlyMap<string, readonly Point[]>;
}

/**
 * Adds a drawn block at the end, as one edit; its id is `nextBlockId(project)`. Nothing changes when `addBlock`
 * would change nothing; cuts that cannot be stored are passed over as in `addCuts`.
 */
export function addDrawnBlock(project: Project, { name, outline, cuts, paint }: DrawnBlock): Project {
  const id = nextBlockId(project);
  const begun = addBlock(project, { name, outline });
  if (begun === project) return project;
  let drawn = addCuts(
    begun,
    id,
    cuts.map(([from, to]) => ({ from, to })),
  );
  for (const [fabric, spots] of paint ?? []) drawn = paintPatches(drawn, id, spots, fabric);
  return drawn;
}

/** The name itself, or with the first number, from 2, that no block of the project is named by. */
export function freeNameLike(project: Project, name: string): string {
  const taken = new Set(project.blocks.map((block) => block.name));
  if (!taken.has(name)) return name;
  let n = 2;
  while (taken.has(`${name} ${n}`)) n++;
  return `${name} ${n}`;
}
