import * as z from 'zod/mini';
import { phrase } from '../words/phrase.ts';
import { oneLine } from './file-place.ts';
import { knownDrawing } from './known-drawing.ts';
import { BLOCKS_PER_PROJECT, ORDERS_PER_BLOCK, PATCHES_PER_BLOCK, PATCHES_PER_ORDER } from './limits.ts';
import type { JsonObject, Migration } from './migration.ts';
import type { Project } from './project.ts';
import { id, list, point, record } from './schema-words.ts';

/**
 * Version 1 knew fabric and order by places alone: `paint` was a list of spots with the fabric of the patch round each,
 * the last laid shown, and `orders` were lists of spots.
 */
const paint = z.looseObject({ at: point, fabric: id }, record);

const block = z.looseObject(
  {
    paint: z.optional(list(paint, PATCHES_PER_BLOCK)),
    orders: z.optional(list(list(point, PATCHES_PER_ORDER), ORDERS_PER_BLOCK)),
  },
  record,
);

const file = z
  .looseObject({ fabrics: z.optional(z.unknown()), blocks: list(block, BLOCKS_PER_PROJECT) })
  .check(
    z.superRefine(({ fabrics, blocks }, context) => {
      const known = new Set(Array.isArray(fabrics) ? fabrics.map((fabric: unknown) => idOf(fabric)) : []);
      for (const [i, { paint: laid = [] }] of blocks.entries())
        for (const [j, { fabric }] of laid.entries())
          if (!known.has(fabric))
            context.addIssue({
              code: 'custom',
              path: ['blocks', i, 'paint', j, 'fabric'],
              message: phrase('‘{fabric}’ is not in the list of fabrics', { fabric: oneLine(fabric) }),
            });
    }),
  );

const idOf = (json: unknown): unknown =>
  typeof json === 'object' && json !== null && 'id' in json ? json.id : undefined;

/**
 * Every spot becomes the entry of a patch, so that entries show and orders hold as before; those of orders carry no
 * fabric. Several may lie in one patch: as ever, the last that lays a fabric stands for it.
 */
export const FROM_VERSION_1: Migration = {
  from: 1,
  check: file,
  migrate: (json) => ({ ...json, blocks: file.parse(json).blocks.map(withEntries) }),
};

function withEntries({ paint: laid = [], orders, ...rest }: z.infer<typeof block>): JsonObject {
  const entries = laid.map((one, i) => ({ ...one, id: `p${i + 1}` }));
  const idAt = new Map<string, string>();
  for (const { id: entry, at } of entries) idAt.set(String(at), entry);
  const bare: { readonly id: string; readonly at: readonly [number, number] }[] = [];
  const ids = orders?.map((order) =>
    order.map((at) => {
      const known = idAt.get(String(at));
      if (known !== undefined) return known;
      const fresh = `p${entries.length + bare.length + 1}`;
      bare.push({ id: fresh, at });
      idAt.set(String(at), fresh);
      return fresh;
    }),
  );
  return { ...rest, patches: [...entries, ...bare], ...(ids && { orders: ids }) };
}

/** The opened project without those entries that were made for orders alone and lie in the patch of another. */
export const settledFromVersion1 = (project: Project): Project => ({
  ...project,
  blocks: project.blocks.map((opened) => {
    const drawing = opened.orders === undefined ? null : knownDrawing(opened);
    if (drawing === null) return opened;
    const standing = new Set([...drawing.patches.map(({ entry }) => entry), ...drawing.loose]);
    const patches = opened.patches.filter((entry) => entry.fabric !== undefined || standing.has(entry));
    return { ...opened, patches, orders: drawing.orders! };
  }),
});
