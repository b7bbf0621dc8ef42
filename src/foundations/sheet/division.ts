import type { SheetShape } from './filling.ts';
import type { Rectangle } from './level-packing.ts';
import { type TileGrid, tileGrid } from './tile-grid.ts';

/** How a foundation larger than a sheet is divided. */
export interface Division {
  readonly grid: TileGrid;
  readonly turned: boolean;
}

/** Room for the words over a tile that say which it is, inches. */
export const TILE_HEAD_IN = 0.17;

export function division(size: Rectangle, room: Rectangle): Division {
  const upright = tileGrid(size, { width: room.width, height: room.height - TILE_HEAD_IN });
  const lying = tileGrid(size, { width: room.height, height: room.width - TILE_HEAD_IN });
  const count = ({ columns, rows }: TileGrid): number => columns * rows;
  return count(lying) < count(upright) ? { grid: lying, turned: true } : { grid: upright, turned: false };
}

export const withHead = ({ width, height }: Rectangle): Rectangle => ({
  width,
  height: height + TILE_HEAD_IN,
});

/** A box that fills itself. */
export const boxShape = ({ width, height }: Rectangle): SheetShape => ({
  width,
  height,
  rings: [
    [
      [0, 0],
      [width, 0],
      [width, height],
      [0, height],
    ],
  ],
  isStraight: true,
});
