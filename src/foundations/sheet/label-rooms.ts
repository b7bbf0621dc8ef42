import { sewnLines } from '../foundation/frame.ts';
import type { LabelRoom } from '../foundation/label-request.ts';
import type { Foundation } from '../print-work.ts';
import type { Side } from '../side.ts';
import { alignmentCrosses } from './crosses.ts';
import { type Division, division, TILE_HEAD_IN } from './division.ts';
import { fitsSheet, type Rectangle } from './level-packing.ts';
import type { Print } from './orientation.ts';
import { clearOfLines, type TileGrid, tileBarriers } from './tile-grid.ts';

/** A label may lie this far beyond the trim line at most, inches. */
const LABEL_GROWTH_IN = 1;

/** Where the labels of a foundation may lie, and how it is divided. */
export interface FoundationRoom {
  readonly labels: LabelRoom;
  /** Null where a paper fits on one sheet. */
  readonly division: Division | null;
}

export function roomOf(
  { job, section, size }: Foundation,
  { room }: Print,
  allowance: number,
  side: Side,
): FoundationRoom {
  if (fitsSheet(size, room)) return { division: null, labels: freeRoom(size, room) };
  const { grid, turned } = division(size, room);
  const across = turned ? { width: room.height, height: room.width } : room;
  const lines = sewnLines(job.plan, section, allowance, side);
  const clear = clearOfLines(grid, { ...across, height: across.height - TILE_HEAD_IN }, lines);
  return { division: { grid: clear, turned }, labels: tiledRoom(size, clear) };
}

/** Labels may lie beyond the trim line as far as the paper still fits on the sheet the way it is laid. */
function freeRoom(size: Rectangle, room: Rectangle): LabelRoom {
  const upright = size.width <= room.width && size.height <= room.height;
  const across = upright ? room.width : room.height;
  const down = upright ? room.height : room.width;
  const growX = Math.min(LABEL_GROWTH_IN, (across - size.width) / 2);
  const growY = Math.min(LABEL_GROWTH_IN, (down - size.height) / 2);
  return {
    minX: -growX,
    minY: -growY,
    maxX: size.width + growX,
    maxY: size.height + growY,
    barriersX: [],
    barriersY: [],
    lines: [],
  };
}

/** Labels of a divided paper stay inside its trim line's box, off the sides of its tiles and off the crosses. */
function tiledRoom(size: Rectangle, grid: TileGrid): LabelRoom {
  const { barriersX, barriersY } = tileBarriers(grid);
  return {
    minX: 0,
    minY: 0,
    maxX: size.width,
    maxY: size.height,
    barriersX,
    barriersY,
    lines: alignmentCrosses(grid),
  };
}
