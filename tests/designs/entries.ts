import type { Point } from '../../src/geometry/point.ts';
import type { Block, PatchEntry } from '../../src/piecing/block.ts';

/** Entries for the patches round some spots, with ids in turn. */
export const entriesAt = (spots: readonly { readonly at: Point; readonly fabric?: string }[]): PatchEntry[] =>
  spots.map((spot, i) => ({ id: `p${i + 1}`, ...spot }));

/** The block with orders by hand given by a spot in each patch. */
export function orderedAt(block: Block, orders: readonly (readonly Point[])[]): Block {
  const patches = [...block.patches];
  const ids = orders.map((order, i) =>
    order.map((at, k) => {
      const id = `order-${i + 1}-${k + 1}`;
      patches.push({ id, at });
      return id;
    }),
  );
  return { ...block, patches, orders: ids };
}
