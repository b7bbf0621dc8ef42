import { paintedPatches } from '../../document/painted-patches.ts';
import type { Block } from '../../document/project.ts';
import type { SmallPiece } from '../small-block.tsx';

/** The patches of a block for a small picture of it, from its drawing alone. */
export const paintedPieces = (block: Block): SmallPiece[] =>
  paintedPatches(block).map(({ polygon, holes, fabric }, key) => ({
    key,
    rings: [polygon, ...holes],
    fabric,
    bare: 'var(--sheet)',
  }));
