import { areasOf, type Division } from '../geometry/division.ts';
import type { Block } from './block.ts';
import type { Lightness } from './options.ts';
import type { OrderFacts } from './order-sections.ts';
import { knownPatches } from './patch-keys.ts';

/** What of a block steers the orders of its sections, cell by cell. What counts as light need not be told. */
export function orderFacts(
  { patches, orders = [] }: Pick<Block, 'patches' | 'orders'>,
  division: Division,
  lightness: Lightness = new Map(),
): OrderFacts {
  const areas = areasOf(division);
  const known = knownPatches(areas, patches);
  const fabrics = known.entries.map((entry) => entry?.fabric ?? null);
  const numbers = new Map<string, number>();
  for (const fabric of fabrics)
    if (fabric !== null && !numbers.has(fabric)) numbers.set(fabric, numbers.size);
  // A later order overrules an earlier one.
  const ranks = new Map<number, number>();
  for (const order of orders)
    order.forEach((id, place) => {
      const cell = known.patchOf.get(id);
      if (cell !== undefined) ranks.set(cell, place);
    });
  return {
    areas,
    known,
    ranks,
    cloth: {
      fabric: Int32Array.from(fabrics, (fabric) => (fabric === null ? -1 : numbers.get(fabric)!)),
      lightness: Float64Array.from(fabrics, (fabric) => (fabric === null ? 1 : (lightness.get(fabric) ?? 1))),
    },
  };
}

/** The same as a text, as far as a block's own fabrics go. Whether any lightness is known at all decides findings. */
export function orderFactsKey(
  { patches, orders }: Pick<Block, 'patches' | 'orders'>,
  lightness?: Lightness,
): string {
  const own = new Set(patches.flatMap(({ fabric }) => fabric ?? []));
  return JSON.stringify([patches, orders, lightness && [...own].map((fabric) => lightness.get(fabric))]);
}
