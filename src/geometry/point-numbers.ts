import type { Point } from './point.ts';

/** Gives points numbers from 0, equal points the same: number pairs make far cheaper keys than texts of coordinates. */
export function pointNumbers(): {
  readonly numberOf: (point: Point) => number;
  /** How many there are so far. */
  readonly count: () => number;
} {
  const columns = new Map<number, Map<number, number>>();
  let count = 0;
  const numberOf = ([x, y]: Point): number => {
    let column = columns.get(x);
    if (!column) {
      column = new Map();
      columns.set(x, column);
    }
    const known = column.get(y);
    if (known !== undefined) return known;
    column.set(y, count);
    return count++;
  };
  return { numberOf, count: () => count };
}
