import type { Area } from '../geometry/inner-spot.ts';
import type { Segment } from '../geometry/point.ts';
import { farthestPair } from '../geometry/ring.ts';
import type { Assembled } from './assemble.ts';
import { type Cloth, pieceOrder } from './order.ts';
import { type KnownPatches, patchKeys } from './patch-keys.ts';
import { endOf, headed, type Pattern, startOf } from './pattern.ts';
import type { Patch, Section } from './plan.ts';
import { sectionKey, stampOf } from './stamp.ts';

/** What is laid on the patches and wished for their order, by cell. */
export interface OrderFacts {
  /** The patches as bare areas. */
  readonly areas: readonly Area[];
  /** Keys and fabrics of the patches. */
  readonly known: KnownPatches;
  readonly cloth: Cloth;
  /** Place in the orders set by hand. */
  readonly ranks: ReadonlyMap<number, number>;
}

/** Sections with their patches in the order in which they are sewn. */
export interface OrderedSections {
  readonly patches: readonly Patch[];
  readonly sections: readonly Section[];
  /** Patch id of each cell. */
  readonly idOf: readonly string[];
}

/** Puts the patches of every section in order, and names and numbers them by it. */
export function orderSections(pattern: Pattern, { sections }: Assembled, facts: OrderFacts): OrderedSections {
  const { areas, known, cloth, ranks } = facts;
  const idOf: string[] = [];
  /** Place of each cell in the plan, section by section. */
  const placeOf = new Int32Array(pattern.cells);
  let place = 0;
  const orders = sections.map(({ letter, region, base }) => {
    const first = base ? 2 : 1;
    const order = pieceOrder(pattern, region, { cloth, rank: ranks, ...(base && { base }) });
    return order.map((step, k) => {
      idOf[step.cell] = `${letter}${first + k}`;
      placeOf[step.cell] = place++;
      return { ...step, position: first + k };
    });
  });
  const keys = patchKeys(areas, known);
  const patches = orders.flatMap((order, s) =>
    order.map(
      ({ cell, along, position }): Patch => ({
        key: keys[cell]!,
        id: idOf[cell]!,
        section: sections[s]!.letter,
        position,
        ...areas[cell]!,
        fabric: known.entries[cell]?.fabric ?? null,
        seam: along.length > 0 ? seamAlong(pattern, along) : null,
        neighbours: Array.from(pattern.neighbours[cell]!)
          .sort((a, b) => placeOf[a]! - placeOf[b]!)
          .map((n) => idOf[n]!),
      }),
    ),
  );
  return {
    patches,
    idOf,
    sections: sections.map(({ letter, outline, holes, startsFrom, base }, s) => ({
      key: sectionKey(orders[s]!.map(({ cell }) => keys[cell]!)),
      letter,
      stamp: stampOf(
        orders[s]!.map(({ cell }) => areas[cell]!),
        base ? [outline, ...holes] : [],
      ),
      outline,
      holes,
      startsFrom,
      order: orders[s]!.map(({ cell }) => idOf[cell]!),
    })),
  };
}

function seamAlong(pattern: Pattern, edges: readonly number[]): Segment {
  const ends = edges.flatMap((h) => [startOf(pattern, h), endOf(pattern, h)]);
  return headed(...farthestPair(ends));
}
