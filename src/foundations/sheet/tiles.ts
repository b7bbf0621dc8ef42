import type { Point } from '../../geometry/point.ts';
import { contains } from '../../geometry/ring.ts';
import { type Mark, shiftMark } from '../marks.ts';
import type { Typeface } from '../type/typeface.ts';
import { inView, type View } from './clip.ts';
import { alignmentCrosses } from './crosses.ts';
import type { Rectangle } from './level-packing.ts';
import { OVERLAP_IN, type TileGrid } from './tile-grid.ts';

export interface Tile {
  /** From 1. */
  readonly column: number;
  readonly row: number;
  readonly width: number;
  readonly height: number;
  /** From the upper left corner of its part of the paper. */
  readonly marks: readonly Mark[];
}

/**
 * The marks of a paper sheet by sheet: lines cut at the window, texts where they lie in it whole. Each sheet
 * carries the alignment crosses; the dotted line to trim on stands on the later of two sheets only.
 * A window that shows nothing of the paper is left out; one in the middle of a wide patch is blank but for crosses.
 */
export function tilesOf(
  marks: readonly Mark[],
  paper: Rectangle,
  grid: TileGrid,
  typeface: Typeface,
): readonly Tile[] {
  const outlines = marks.flatMap((mark) =>
    mark.kind === 'polygon' && mark.pen === 'edge' ? [mark.ring] : [],
  );
  const crosses = alignmentCrosses(grid).map((points): Mark => ({ kind: 'line', pen: 'tile-cross', points }));
  const windows: (Pick<Tile, 'column' | 'row'> & { readonly view: View; readonly shown: readonly Mark[] })[] =
    [];
  for (let row = 0; row < grid.rows; row++) {
    for (let column = 0; column < grid.columns; column++) {
      const x = column * grid.stepX;
      const y = row * grid.stepY;
      const view: View = {
        minX: x,
        minY: y,
        maxX: Math.min(paper.width, x + grid.stepX + (grid.columns > 1 ? OVERLAP_IN : 0)),
        maxY: Math.min(paper.height, y + grid.stepY + (grid.rows > 1 ? OVERLAP_IN : 0)),
      };
      const shown = marks.flatMap((mark) => inView(mark, view, typeface));
      const middle: Point = [(view.minX + view.maxX) / 2, (view.minY + view.maxY) / 2];
      if (shown.some((mark) => mark.kind !== 'text') || outlines.some((ring) => contains(ring, middle)))
        windows.push({ column, row, view, shown });
    }
  }
  // Only where another sheet shows the other side of an overlap is there anything to be joined there.
  const meets = (column: number, row: number): boolean =>
    windows.some((one) => one.column === column && one.row === row);
  return windows.map(({ column, row, view, shown }): Tile => {
    const { minX: x, minY: y, maxX, maxY } = view;
    const before = [meets(column - 1, row), meets(column, row - 1)] as const;
    const after = [meets(column + 1, row), meets(column, row + 1)] as const;
    const joined: View = {
      minX: before[0] || column === 0 ? x : x + OVERLAP_IN,
      minY: before[1] || row === 0 ? y : y + OVERLAP_IN,
      maxX: after[0] || column === grid.columns - 1 ? maxX : maxX - OVERLAP_IN,
      maxY: after[1] || row === grid.rows - 1 ? maxY : maxY - OVERLAP_IN,
    };
    const trims: Mark[] = [];
    if (before[0]) trims.push(trimAt([x + OVERLAP_IN / 2, y], [x + OVERLAP_IN / 2, maxY]));
    if (before[1]) trims.push(trimAt([x, y + OVERLAP_IN / 2], [maxX, y + OVERLAP_IN / 2]));
    const all = [
      ...shown,
      ...crosses.filter((cross) => liesIn(cross, joined)).flatMap((mark) => inView(mark, view, typeface)),
      ...trims.flatMap((mark) => inView(mark, view, typeface)),
    ];
    return {
      column: column + 1,
      row: row + 1,
      width: maxX - x,
      height: maxY - y,
      marks: all.map((mark) => shiftMark(mark, -x, -y)),
    };
  });
}

/** Whether the middle of a line lies in a view. */
function liesIn(mark: Mark, { minX, minY, maxX, maxY }: View): boolean {
  if (mark.kind !== 'line') return true;
  const [[ax, ay], [bx, by]] = [mark.points[0]!, mark.points.at(-1)!];
  const [x, y] = [(ax + bx) / 2, (ay + by) / 2];
  return x >= minX && x <= maxX && y >= minY && y <= maxY;
}

/** Further marks of the paper, as far as one of its tiles shows them, from the corner of the tile. */
export function onTile(
  marks: readonly Mark[],
  { column, row, width, height }: Tile,
  { stepX, stepY }: TileGrid,
  typeface: Typeface,
): Mark[] {
  const [x, y] = [(column - 1) * stepX, (row - 1) * stepY];
  const view: View = { minX: x, minY: y, maxX: x + width, maxY: y + height };
  return marks.flatMap((mark) => inView(mark, view, typeface)).map((mark) => shiftMark(mark, -x, -y));
}

const trimAt = (from: Point, to: Point): Mark => ({ kind: 'line', pen: 'tile-trim', points: [from, to] });
