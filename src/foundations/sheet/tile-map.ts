import type { Point, Ring, Segment } from '../../geometry/point.ts';
import { SMALLEST_PT, stack } from '../foundation/label-request.ts';
import { type Mark, PT } from '../marks.ts';
import { blockMarks } from '../type/lettering.ts';
import type { Typeface } from '../type/typeface.ts';
import type { Rectangle } from './level-packing.ts';
import { OVERLAP_IN, seamsOf, type TileGrid } from './tile-grid.ts';
import type { Tile } from './tiles.ts';

/** From a slim paper on the map to the numbers beside it, inches. */
const MAP_GAP_IN = 2 * PT;

/** Smallest type on the map of tiles, inches. */
const MAP_TYPE_IN = SMALLEST_PT * PT;

/**
 * The map of tiles: the paper's outline, where it is divided, and the number of each tile that is printed. Fitted
 * into a square of `side` inches from its upper left corner, at its foot. On a paper too slim for them the numbers stand
 * beside their tiles; they are left out where they have no room at all.
 */
export function tileMap(
  paper: Rectangle & { readonly rings: readonly Ring[] },
  grid: TileGrid,
  tiles: readonly Tile[],
  side: number,
  typeface: Typeface,
): Mark[] {
  const scale = side / Math.max(paper.width, paper.height);
  const left = (side - scale * paper.width) / 2;
  const top = side - scale * paper.height;
  const place = ([x, y]: Point): Point => [left + scale * x, top + scale * y];
  const outline = paper.rings[0] ?? [];
  const marks: Mark[] = [];
  for (const [axis, seams] of [
    [0, seamsOf(grid.columns, grid.stepX)],
    [1, seamsOf(grid.rows, grid.stepY)],
  ] as const)
    for (const at of seams)
      for (const points of across(outline, axis, at))
        marks.push({ kind: 'line', pen: 'picture', points: points.map(place) });
  marks.push({ kind: 'polygon', pen: 'frame', ring: outline.map(place) });
  const middleOf = (index: number, count: number, step: number, long: number): number =>
    count === 1
      ? long / 2
      : ((index === 0 ? 0 : index * step + OVERLAP_IN / 2) +
          (index === count - 1 ? long : (index + 1) * step + OVERLAP_IN / 2)) /
        2;
  const room = scale * Math.min(grid.stepX, grid.stepY);
  const isSlim = room < MAP_TYPE_IN;
  for (const [i, { column, row }] of tiles.entries()) {
    const number = stack(typeface, [
      [String(i + 1), 'semibold', Math.min(11, Math.max(SMALLEST_PT, 40 * room))],
    ]);
    const [x, y] = place([
      middleOf(column - 1, grid.columns, grid.stepX, paper.width),
      middleOf(row - 1, grid.rows, grid.stepY, paper.height),
    ]);
    if (!isSlim && number.width <= scale * grid.stepX) marks.push(...blockMarks(number, [x, y]));
    else if (grid.rows === 1 && number.width <= scale * grid.stepX)
      marks.push(...blockMarks(number, [x, top - MAP_GAP_IN - number.height / 2]));
    else if (grid.columns === 1 && number.height <= scale * grid.stepY)
      marks.push(...blockMarks(number, [left + scale * paper.width + MAP_GAP_IN + number.width / 2, y]));
  }
  return marks;
}

/** The stretches inside a ring of the upright line at x = `at` (axis 0), or of the level one at y = `at` (axis 1). */
export function across(ring: Ring, axis: 0 | 1, at: number): Segment[] {
  const crossings = ring.flatMap((a, i): number[] => {
    const b = ring[(i + 1) % ring.length]!;
    if (a[axis] > at === b[axis] > at) return [];
    const share = (at - a[axis]) / (b[axis] - a[axis]);
    return [a[1 - axis]! + share * (b[1 - axis]! - a[1 - axis]!)];
  });
  const on = (along: number): Point => (axis === 0 ? [at, along] : [along, at]);
  crossings.sort((a, b) => a - b);
  return crossings.flatMap((end, i): Segment[] => (i % 2 === 1 ? [[on(crossings[i - 1]!), on(end)]] : []));
}
