import { type Division, ringOf } from '../geometry/division.ts';
import type { Point } from '../geometry/point.ts';
import { boxOf, contains } from '../geometry/ring.ts';
import type { Block } from './block.ts';
import type { Lightness } from './options.ts';
import type { OrderFacts } from './order-sections.ts';

/** What of a block steers the orders of its sections, cell by cell. What counts as light need not be told. */
export function orderFacts(
  { paint, orders = [] }: Pick<Block, 'paint' | 'orders'>,
  division: Division,
  lightness: Lightness = new Map(),
): OrderFacts {
  const faceAt = faceFinder(division);
  const fabrics: (string | null)[] = division.faces.map(() => null);
  for (const { at, fabric } of paint) {
    const f = faceAt(at);
    if (f >= 0) fabrics[f] = fabric;
  }
  const numbers = new Map<string, number>();
  for (const fabric of fabrics)
    if (fabric !== null && !numbers.has(fabric)) numbers.set(fabric, numbers.size);
  // A later order overrules an earlier one.
  const ranks = new Map<number, number>();
  for (const order of orders)
    order.forEach((point, place) => {
      const f = faceAt(point);
      if (f >= 0) ranks.set(f, place);
    });
  return {
    fabrics,
    ranks,
    cloth: {
      fabric: Int32Array.from(fabrics, (fabric) => (fabric === null ? -1 : numbers.get(fabric)!)),
      lightness: Float64Array.from(fabrics, (fabric) => (fabric === null ? 1 : (lightness.get(fabric) ?? 1))),
    },
  };
}

/** The same as a text, as far as a block's own fabrics go. Whether any lightness is known at all decides findings. */
export function orderFactsKey(
  { paint, orders }: Pick<Block, 'paint' | 'orders'>,
  lightness?: Lightness,
): string {
  const own = new Set(paint.map(({ fabric }) => fabric));
  return JSON.stringify([paint, orders, lightness && [...own].map((fabric) => lightness.get(fabric))]);
}

/** Finds the face a point lies in, or -1. */
function faceFinder(division: Division): (at: Point) => number {
  const faces = division.faces.map((face) => {
    const ring = ringOf(division, face.edge);
    return { ring, box: boxOf(ring), holes: face.islands.map((h) => ringOf(division, h)) };
  });
  return (at) =>
    faces.findIndex(
      ({ ring, box, holes }) =>
        at[0] >= box.minX &&
        at[0] <= box.maxX &&
        at[1] >= box.minY &&
        at[1] <= box.maxY &&
        contains(ring, at) &&
        !holes.some((hole) => contains(hole, at)),
    );
}
