import type { Point, Ring, Segment } from '../../geometry/point.ts';
import { contains } from '../../geometry/ring.ts';
import { SMALLEST_PT, stack } from '../foundation/label-request.ts';
import { type Mark, PT, type TextMark, textCorners } from '../marks.ts';
import { blockMarks, lengthOf, shortened, type TextLine } from '../type/lettering.ts';
import type { Typeface } from '../type/typeface.ts';
import type { Rectangle } from './level-packing.ts';

/** How much two sheets of one foundation show alike, inches. */
export const OVERLAP_IN = 0.5;

/** Half the length of an arm of an alignment cross, inches. */
const CROSS_IN = 0.12;

/** Fewer letters of a name than this tell nothing, and shorter words are taken round it. */
const LEAST_NAME = 8;

/**
 * The line over a tile: which tile it is, the name, and what comes after the name, no longer than `widest` inches.
 * `ends` are wordings of what comes after it, the fullest first. The name is shortened, what is about it never is,
 * as long as there is any room for that.
 */
export function tileHead(
  typeface: Typeface,
  style: Omit<TextLine, 'text'>,
  {
    number,
    of,
    row,
    column,
  }: { readonly number: number; readonly of: number; readonly row: number; readonly column: number },
  name: string,
  ends: readonly string[],
  widest: number,
): string {
  const counted = `Tile ${number} of ${of}`;
  const heads = ends.flatMap((end) => [
    [`${counted} (row ${row}, column ${column}): `, end] as const,
    [`${counted}: `, end] as const,
  ]);
  for (const [before, end] of heads) {
    const room = widest - lengthOf(typeface, { text: `${before}${end}`, ...style });
    const short = room <= 0 ? '' : shortened(typeface, { text: name, ...style }, room);
    if (short === name || [...short].length > LEAST_NAME) return `${before}${short}${end}`;
  }
  const [before, end] = heads.at(-1) ?? [`${counted}: `, ''];
  return shortened(typeface, { text: `${before}${end.replace(/^[ ,.]+/, '')}`, ...style }, widest);
}

/** A foundation larger than a sheet, divided into windows of equal size, or the last one smaller, that overlap. Inches. */
export interface TileGrid {
  readonly columns: number;
  readonly rows: number;
  /** From the left (upper) side of one window to the next. */
  readonly stepX: number;
  readonly stepY: number;
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
const seamsOf = (count: number, step: number): number[] =>
  Array.from({ length: count - 1 }, (_, i) => (i + 1) * step + OVERLAP_IN / 2);

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
  const tiles: Tile[] = [];
  const outlines = marks.flatMap((mark) =>
    mark.kind === 'polygon' && mark.pen === 'edge' ? [mark.ring] : [],
  );
  const crosses = alignmentCrosses(grid).map((points): Mark => ({ kind: 'line', pen: 'tile-cross', points }));
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
      if (!shown.some((mark) => mark.kind !== 'text') && !outlines.some((ring) => contains(ring, middle)))
        continue;
      const trims: Mark[] = [];
      if (column > 0) trims.push(trimAt([x + OVERLAP_IN / 2, view.minY], [x + OVERLAP_IN / 2, view.maxY]));
      if (row > 0) trims.push(trimAt([view.minX, y + OVERLAP_IN / 2], [view.maxX, y + OVERLAP_IN / 2]));
      const all = [...shown, ...[...crosses, ...trims].flatMap((mark) => inView(mark, view, typeface))];
      tiles.push({
        column: column + 1,
        row: row + 1,
        width: view.maxX - view.minX,
        height: view.maxY - view.minY,
        marks: all.map((mark) => moved(mark, -x, -y)),
      });
    }
  }
  return tiles;
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
  return marks.flatMap((mark) => inView(mark, view, typeface)).map((mark) => moved(mark, -x, -y));
}

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
function across(ring: Ring, axis: 0 | 1, at: number): Segment[] {
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

const trimAt = (from: Point, to: Point): Mark => ({ kind: 'line', pen: 'tile-trim', points: [from, to] });

interface View {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

/** Slack for a text or dot whose edge lies on the window's, inches. */
const TOUCH = 1e-6;

function inView(mark: Mark, view: View, typeface: Typeface): Mark[] {
  const holds = ([x, y]: Point): boolean =>
    x >= view.minX - TOUCH && x <= view.maxX + TOUCH && y >= view.minY - TOUCH && y <= view.maxY + TOUCH;
  switch (mark.kind) {
    case 'line':
      return cut(mark.points, view).map((points) => ({ ...mark, points }));
    case 'polygon': {
      if (mark.ring.every(holds)) return [mark];
      if (mark.fill !== undefined) {
        const ring = cutRing(mark.ring, view);
        return ring.length > 2 ? [{ ...mark, ring }] : [];
      }
      return cut([...mark.ring, mark.ring[0]!], view).map((points) => ({
        kind: 'line',
        pen: mark.pen,
        points,
      }));
    }
    case 'circle': {
      const { at, radius } = mark;
      return holds([at[0] - radius, at[1] - radius]) && holds([at[0] + radius, at[1] + radius]) ? [mark] : [];
    }
    case 'text':
      return inkCorners(mark, typeface).every(holds) ? [mark] : [];
  }
}

function inkCorners(mark: TextMark, typeface: Typeface): readonly Point[] {
  const { up, down } = typeface.extent(mark.text, mark.face);
  return textCorners(mark, up * mark.size, down * mark.size);
}

/** The part of a filled ring inside the window (Sutherland and Hodgman 1974). */
function cutRing(ring: Ring, { minX, minY, maxX, maxY }: View): Ring {
  let rest: Ring = ring;
  for (const [axis, sign, limit] of [
    [0, 1, maxX],
    [0, -1, -minX],
    [1, 1, maxY],
    [1, -1, -minY],
  ] as const) {
    const over = (p: Point): number => sign * p[axis] - limit;
    rest = rest.flatMap((b, i): Point[] => {
      const a = rest.at(i - 1)!;
      const [da, db] = [over(a), over(b)];
      const kept: Point[] = db <= 0 ? [b] : [];
      if (da <= 0 === db <= 0) return kept;
      const t = da / (da - db);
      return [[a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])], ...kept];
    });
  }
  return rest;
}

/** The parts of a polyline inside the window (Liang and Barsky 1984), as few polylines as it falls into. */
function cut(points: readonly Point[], { minX, minY, maxX, maxY }: View): Point[][] {
  const parts: Point[][] = [];
  for (let i = 1; i < points.length; i++) {
    const [a, b] = [points[i - 1]!, points[i]!];
    let from = 0;
    let to = 1;
    for (const [step, room] of [
      [b[0] - a[0], maxX - a[0]],
      [a[0] - b[0], a[0] - minX],
      [b[1] - a[1], maxY - a[1]],
      [a[1] - b[1], a[1] - minY],
    ] as const) {
      if (step === 0) {
        if (room < 0) to = -1;
      } else if (step > 0) to = Math.min(to, room / step);
      else from = Math.max(from, room / step);
    }
    if (from >= to) continue;
    const at = (t: number): Point =>
      t === 0 ? a : t === 1 ? b : [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])];
    const last = parts.at(-1);
    const end = last?.at(-1);
    if (last && end && from === 0 && end[0] === a[0] && end[1] === a[1]) last.push(at(to));
    else parts.push([at(from), at(to)]);
  }
  return parts;
}

function moved(mark: Mark, dx: number, dy: number): Mark {
  const move = ([x, y]: Point): Point => [x + dx, y + dy];
  switch (mark.kind) {
    case 'line':
      return { ...mark, points: mark.points.map(move) };
    case 'polygon':
      return { ...mark, ring: mark.ring.map(move) };
    case 'circle':
    case 'text':
      return { ...mark, at: move(mark.at) };
  }
}
