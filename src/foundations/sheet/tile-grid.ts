import type { Segment } from '../../geometry/point.ts';
import type { Rectangle } from './level-packing.ts';

/** Half the length of an arm of an alignment cross, inches. */
export const CROSS_IN = 0.12;

/** How much two sheets of one foundation show alike, inches. */
export const OVERLAP_IN = 0.5;

/** A foundation larger than a sheet, divided into windows of equal size, or the last one smaller, that overlap. Inches. */
export interface TileGrid {
  readonly columns: number;
  readonly rows: number;
  /** From the left (upper) side of one window to the next. */
  readonly stepX: number;
  readonly stepY: number;
  /** Lines that the crosses keep off, on the paper; none when absent. */
  readonly lines?: readonly Segment[];
}

/** The fewest windows no larger than a sheet's room that cover a paper, all of one size. */
export function tileGrid(paper: Rectangle, room: Rectangle): TileGrid {
  const count = (long: number, most: number): number =>
    Math.max(1, Math.ceil((long - OVERLAP_IN) / (most - OVERLAP_IN) - 1e-9));
  const columns = count(paper.width, room.width);
  const rows = count(paper.height, room.height);
  return {
    columns,
    rows,
    stepX: columns === 1 ? paper.width : (paper.width - OVERLAP_IN) / columns,
    stepY: rows === 1 ? paper.height : (paper.height - OVERLAP_IN) / rows,
  };
}

/** A drawn line nearer than this beside a dotted trim line can be taken for it, inches. */
const CLEAR_OF_LINES_IN = 1 / 8;

/** A line leans less than this against a trim line it could be taken for: 1 in 8. */
const LEAN = 1 / 8;

/** Windows are made larger by steps of this, inches. */
const SHIFT_IN = 1 / 32;

/**
 * The grid with its trim lines moved clear of the paper's drawn lines that run along them, as far as windows no
 * larger than the sheet's room allow; where none is clear, as clear as can be. Dotted on a seam, a trim line and the
 * crosses on it could not be seen.
 */
export function clearOfLines(grid: TileGrid, room: Rectangle, lines: readonly Segment[]): TileGrid {
  const clear = (axis: 0 | 1, count: number, step: number, most: number): number => {
    if (count === 1) return step;
    const runs = lines.flatMap(([a, b]): number[][] => {
      const across = Math.abs(b[axis] - a[axis]);
      const along = Math.abs(b[1 - axis]! - a[1 - axis]!);
      return along > CROSS_IN && across <= LEAN * along ? [[a[axis], b[axis]].toSorted((p, q) => p - q)] : [];
    });
    let best = step;
    let bestAway = -1;
    // What the other windows gain the last one loses: a tenth of it at most, which leaves its crosses on the paper.
    const longest = Math.min(most - OVERLAP_IN, step + step / (10 * (count - 1)));
    for (let tried = step; tried <= Math.max(step, longest) + 1e-9; tried += SHIFT_IN) {
      const trims = seamsOf(count, tried);
      const away = Math.min(
        CLEAR_OF_LINES_IN,
        ...trims.flatMap((at) => runs.map(([from, to]) => Math.max(0, from! - at, at - to!))),
      );
      if (away <= bestAway + 1e-9) continue;
      best = tried;
      bestAway = away;
      if (away >= CLEAR_OF_LINES_IN) break;
    }
    return best;
  };
  return {
    ...grid,
    lines,
    stepX: clear(0, grid.columns, grid.stepX, room.width),
    stepY: clear(1, grid.rows, grid.stepY, room.height),
  };
}

/** The size of every tile, or of the largest where they differ. */
export const tileSize = (paper: Rectangle, { columns, rows, stepX, stepY }: TileGrid): Rectangle => ({
  width: columns === 1 ? paper.width : stepX + OVERLAP_IN,
  height: rows === 1 ? paper.height : stepY + OVERLAP_IN,
});

/** Lines of a divided paper that no label may cross: the sides of its windows, and where the later sheet is trimmed. */
export const tileBarriers = (
  grid: TileGrid,
): { readonly barriersX: readonly number[]; readonly barriersY: readonly number[] } => ({
  barriersX: seamsOf(grid.columns, grid.stepX).flatMap((x) => [x - OVERLAP_IN / 2, x, x + OVERLAP_IN / 2]),
  barriersY: seamsOf(grid.rows, grid.stepY).flatMap((y) => [y - OVERLAP_IN / 2, y, y + OVERLAP_IN / 2]),
});

/** Middles of the overlaps along one direction. */
export const seamsOf = (count: number, step: number): number[] =>
  Array.from({ length: count - 1 }, (_, i) => (i + 1) * step + OVERLAP_IN / 2);
