import { type Area, holdsPoint } from '../geometry/inner-spot.ts';
import { boxOf } from '../geometry/ring.ts';
import type { Block } from '../piecing/block.ts';
import { patchesOf } from './patches-of.ts';

/** A patch as it is seen: its shape, and the fabric that lies on it. */
export interface PaintedPatch extends Area {
  readonly fabric: string | null;
}

const known = new WeakMap<Block, readonly PaintedPatch[]>();

/** The patches of a block with their fabrics, from its drawing alone: what a picture needs, long before a plan is made. */
export function paintedPatches(block: Block): readonly PaintedPatch[] {
  const made = known.get(block) ?? paint(block);
  known.set(block, made);
  return made;
}

function paint(block: Block): readonly PaintedPatch[] {
  return patchesOf(block).map((area) => {
    const { minX, minY, maxX, maxY } = boxOf(area.polygon);
    const entry = block.patches.find(
      ({ at: [x, y] }) => x >= minX && x <= maxX && y >= minY && y <= maxY && holdsPoint(area, [x, y]),
    );
    return { ...area, fabric: entry?.fabric ?? null };
  });
}
