import type { Point, Segment } from '../../geometry/point.ts';
import { CROSS_IN, OVERLAP_IN, seamsOf, type TileGrid } from './tile-grid.ts';

/** Alignment crosses of the whole paper: two on the middle of every overlap in every row and column. */
export function alignmentCrosses(grid: TileGrid): readonly Segment[] {
  const spots: Point[] = [];
  const along = (index: number, step: number): number[] => [
    index * step + step / 5,
    index * step + (4 * step) / 5,
  ];
  for (const x of seamsOf(grid.columns, grid.stepX))
    for (let row = 0; row < grid.rows; row++)
      for (const y of along(row, grid.stepY)) spots.push([x, y + shift(grid.rows)]);
  for (const y of seamsOf(grid.rows, grid.stepY))
    for (let column = 0; column < grid.columns; column++)
      for (const x of along(column, grid.stepX)) spots.push([x + shift(grid.columns), y]);
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
