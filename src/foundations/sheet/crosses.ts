import type { Point, Segment } from '../../geometry/point.ts';
import { distanceToSegment } from '../../geometry/ring.ts';
import { CROSS_IN, OVERLAP_IN, seamsOf, type TileGrid } from './tile-grid.ts';

/** A cross keeps this far off the lines of the paper, and slides along its overlap by steps of so much; inches. */
const OFF_IN = 0.03;
const SLIDE_IN = 1 / 32;

/**
 * Alignment crosses of the whole paper: two on the middle of every overlap in every row and column, slid along it off
 * the lines of the grid, as far off as can be where there is no place clear of all.
 */
export function alignmentCrosses(grid: TileGrid): readonly Segment[] {
  const spots: Point[] = [];
  const spotOn = (wish: number, reach: number, at: (along: number) => Point): void => {
    const off = (along: number): number =>
      Math.min(CROSS_IN + OFF_IN, ...(grid.lines ?? []).map((line) => distanceToSegment(at(along), ...line)));
    let best = wish;
    for (let slide = 0; slide <= reach && off(best) < CROSS_IN + OFF_IN; slide += SLIDE_IN)
      for (const along of [wish + slide, wish - slide]) if (off(along) > off(best) + 1e-9) best = along;
    spots.push(at(best));
  };
  const pairOn = (index: number, step: number, start: number, at: (along: number) => Point): void => {
    for (const share of [1 / 5, 4 / 5]) spotOn(start + (index + share) * step, 0.14 * step, at);
  };
  for (const x of seamsOf(grid.columns, grid.stepX))
    for (let row = 0; row < grid.rows; row++) pairOn(row, grid.stepY, shift(grid.rows), (y) => [x, y]);
  for (const y of seamsOf(grid.rows, grid.stepY))
    for (let column = 0; column < grid.columns; column++)
      pairOn(column, grid.stepX, shift(grid.columns), (x) => [x, y]);
  return spots.flatMap(([x, y]): Segment[] => [
    [
      [x - CROSS_IN, y],
      [x + CROSS_IN, y],
    ],
    [
      [x, y - CROSS_IN],
      [x, y + CROSS_IN],
    ],
  ]);
}

/** Where a direction is divided too, its windows begin half an overlap before their own part. */
const shift = (count: number): number => (count > 1 ? OVERLAP_IN / 2 : 0);
