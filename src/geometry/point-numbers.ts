import { LATTICE_STEPS_PER_IN } from './lattice.ts';
import type { Point } from './point.ts';

/** Gives points numbers from 0, equal points the same: number pairs make far cheaper keys than texts of coordinates. */
export function pointNumbers(): {
  readonly numberOf: (point: Point) => number;
  /** How many there are so far. */
  readonly count: () => number;
} {
  const points: Point[] = [];
  // A table with open places, never more than half full: the number of a point stands near where its digits say.
  let table = new Int32Array(256).fill(-1);
  const placeOf = ([x, y]: Point): number => {
    const mask = table.length - 1;
    const stirred =
      Math.imul(x * LATTICE_STEPS_PER_IN, 0x9e3779b1) ^ Math.imul(y * LATTICE_STEPS_PER_IN, 0x85ebca6b);
    let place = (stirred ^ (stirred >>> 15)) & mask;
    for (;;) {
      const known = table[place]!;
      if (known < 0) return place;
      const other = points[known]!;
      if (other[0] === x && other[1] === y) return place;
      place = (place + 1) & mask;
    }
  };
  const numberOf = (point: Point): number => {
    const place = placeOf(point);
    const known = table[place]!;
    if (known >= 0) return known;
    table[place] = points.length;
    points.push(point);
    if (2 * points.length > table.length) {
      table = new Int32Array(2 * table.length).fill(-1);
      points.forEach((each, number) => {
        table[placeOf(each)] = number;
      });
    }
    return points.length - 1;
  };
  return { numberOf, count: () => points.length };
}
