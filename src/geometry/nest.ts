import { chance } from './chance.ts';
import type { Point, Ring } from './point.ts';
import { boxOf } from './ring.ts';

/** A shape to be laid on sheets: what its rings cover together. A ring of two points is a line. */
export interface NestShape {
  readonly rings: readonly Ring[];
  /** Turns it may lie in, in quarters clockwise; fractions are allowed. The first is the one it likes best. */
  readonly turns: readonly number[];
}

/** Where an item lies: its shape turned about its own origin, then moved to `at`. */
export interface Nested {
  readonly sheet: number;
  readonly at: Point;
  readonly quarterTurns: number;
}

export interface NestOptions {
  /** Inside of a sheet, from its upper left corner. */
  readonly sheet: { readonly width: number; readonly height: number };
  /** Free space between two items. */
  readonly gap: number;
  /** How much trying is allowed, in steps of some ten nanoseconds; a first answer is always finished. */
  readonly effort: number;
  /** Begins the order of tries that are left to chance. */
  readonly seed: number;
}

/** Side of a cell of the raster that shapes are laid on, inches; coarser where a sheet would have too many. */
const CELL_IN = 1 / 24;
const MOST_CELLS = 1_000;

/** Slack for sums of sizes, inches: what fills a sheet exactly fits. */
const ROUNDING = 1e-9;

/** Turns a point about the origin by quarters clockwise (y down); whole quarters are exact. */
export function turnedByQuarters([x, y]: Point, quarters: number): Point {
  switch (((quarters % 4) + 4) % 4) {
    case 0:
      return [x, y];
    case 1:
      return [-y, x];
    case 2:
      return [-x, -y];
    case 3:
      return [y, -x];
    default: {
      const [cos, sin] = [Math.cos((quarters * Math.PI) / 2), Math.sin((quarters * Math.PI) / 2)];
      return [x * cos - y * sin, x * sin + y * cos];
    }
  }
}

/**
 * Lays items of some shapes on as few sheets as it finds, `gap` apart and wholly inside. `items` names the shape of
 * each. Null when an item fits on no empty sheet. Inches; result in the order of the items; the same input gives the
 * same result.
 *
 * Each shape is grown by half the gap and rastered once for each turn, every cell that it touches counting as
 * covered, so that items whose cells are apart are themselves apart by the gap. The largest first, each item goes
 * where it ends highest, then farthest left (bottom-left fill, here from the top: Burke, Hellier, Kendall and
 * Whitwell, Operations Research 54, 2006, over rasters). Several orders are tried while the effort lasts.
 */
export function nest(
  shapes: readonly NestShape[],
  items: readonly number[],
  options: NestOptions,
): readonly Nested[] | null {
  if (items.length === 0) return [];
  const { sheet, gap } = options;
  const cell = Math.max(CELL_IN, Math.max(sheet.width, sheet.height) / MOST_CELLS);
  const upright = shapes.map((shape) => rastersOf(shape, sheet, gap, cell));
  if (items.some((shape) => upright[shape]!.length === 0)) return null;
  const across = Math.floor(sheet.width / cell + 2 + gap / cell);
  const down = Math.floor(sheet.height / cell + 2 + gap / cell);
  const standing = { shapes: upright, store: cellStore(across, down) };
  let lying: typeof standing | null = null;
  const cover = items.reduce((sum, shape) => sum + upright[shape]![0]!.cells, 0);
  const bound = Math.ceil((cover * cell * cell) / ((sheet.width + gap) * (sheet.height + gap)) - 1e-6);

  const random = chance(options.seed);
  const work = { left: options.effort };
  let best: Laying | null = null;
  for (let tryNumber = 0; tryNumber < MOST_TRIES; tryNumber++) {
    if (best && (best.sheets <= bound || work.left <= 0)) break;
    const isLying = tryNumber % 2 === 1;
    const order = orderOf(items, upright, tryNumber >> 1, random);
    if (isLying)
      lying ??= { shapes: upright.map((rasters) => rasters.map(transposed)), store: cellStore(down, across) };
    const { shapes: rasters, store } = isLying ? lying! : standing;
    const found = fill(items, order, rasters, {
      store,
      // A try that already needs more sheets than the best one is given up.
      most: best ? best.sheets : Number.POSITIVE_INFINITY,
      bestUsed: best ? best.lastUsed : Number.POSITIVE_INFINITY,
      work,
    });
    if (found && (!best || found.sheets < best.sheets || found.lastUsed < best.lastUsed))
      best = { ...found, isLying };
  }
  return best!.spots.map(({ sheet: on, raster, column, row }) => {
    const [x, y] = best!.isLying ? [row, column] : [column, row];
    return {
      sheet: on,
      at: [x * cell - raster.minX, y * cell - raster.minY],
      quarterTurns: raster.quarterTurns,
    };
  });
}

/** Orders tried at most: a few by size, each across and down, then some with neighbours swapped by chance. */
const MOST_TRIES = 24;

// ---------------------------------------------------------------- rasters

/** A shape in one turn, as runs of cells row by row; cell 0 begins half a gap before the shape does. */
interface Raster {
  readonly quarterTurns: number;
  /** Of the turned shape, inches. */
  readonly minX: number;
  readonly minY: number;
  readonly columns: number;
  readonly rows: number;
  /** Last column and row where it still lies on the sheet. */
  readonly lastColumn: number;
  readonly lastRow: number;
  /** First and last column of each run, all rows after one another. */
  readonly runs: Int16Array;
  /** Where the runs of each row begin in `runs`; one more entry than rows. */
  readonly starts: Int32Array;
  /** Length of the longest run of each row, and the row that has the longest of all. */
  readonly longest: Int16Array;
  readonly widest: number;
  readonly cells: number;
}

/** A raster for every turn in which the shape fits on an empty sheet. */
function rastersOf(shape: NestShape, sheet: NestOptions['sheet'], gap: number, cell: number): Raster[] {
  return shape.turns.flatMap((quarterTurns): Raster[] => {
    const rings = shape.rings.map((ring) => ring.map((point) => turnedByQuarters(point, quarterTurns)));
    const { minX, minY, maxX, maxY } = boxOf(rings.flat());
    const [width, height] = [maxX - minX, maxY - minY];
    if (width > sheet.width + ROUNDING || height > sheet.height + ROUNDING) return [];
    const lastColumn = Math.floor((sheet.width - width + ROUNDING) / cell);
    const lastRow = Math.floor((sheet.height - height + ROUNDING) / cell);
    const rows = runsOf(rings, { x: minX - gap / 2, y: minY - gap / 2, height: height + gap }, gap / 2, cell);
    return [{ quarterTurns, minX, minY, lastColumn, lastRow, ...packed(rows) }];
  });
}

type Run = readonly [first: number, last: number];

function packed(rows: readonly (readonly Run[])[]) {
  const starts = new Int32Array(rows.length + 1);
  for (let i = 0; i < rows.length; i++) starts[i + 1] = starts[i]! + 2 * rows[i]!.length;
  const runs = new Int16Array(starts[rows.length]!);
  const longest = new Int16Array(rows.length);
  let widest = 0;
  let cells = 0;
  let columns = 0;
  let at = 0;
  for (const [k, row] of rows.entries()) {
    for (const [first, last] of row) {
      runs[at++] = first;
      runs[at++] = last;
      const length = last - first + 1;
      cells += length;
      if (length > longest[k]!) longest[k] = length;
      if (last >= columns) columns = last + 1;
    }
    if (longest[k]! > longest[widest]!) widest = k;
  }
  return { rows: rows.length, columns, runs, starts, longest, widest, cells };
}

/** The cells that the rings grown by `grown` touch: in each row, runs in turn that do not touch each other. */
function runsOf(
  rings: readonly Ring[],
  from: { readonly x: number; readonly y: number; readonly height: number },
  grown: number,
  cell: number,
): Run[][] {
  const rows = Math.max(1, Math.ceil(from.height / cell - ROUNDING));
  const stretches: [number, number][][] = Array.from({ length: rows }, () => []);
  for (const ring of rings) {
    ring.forEach((a, i) => {
      const b = ring[(i + 1) % ring.length]!;
      const first = Math.max(0, Math.floor((Math.min(a[1], b[1]) - grown - from.y) / cell - 1e-6));
      const last = Math.min(rows - 1, Math.floor((Math.max(a[1], b[1]) + grown - from.y) / cell + 1e-6));
      for (let row = first; row <= last; row++) {
        const top = from.y + row * cell;
        const reach = grownReach(a, b, grown, top, top + cell);
        if (reach) stretches[row]!.push(reach);
      }
    });
    // What lies inside: taken half way down each row. Wherever the rest of the row differs, an edge runs through it.
    for (let row = 0; row < rows; row++) {
      const y = from.y + (row + 0.5) * cell;
      const crossings: number[] = [];
      for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
        const [ax, ay] = ring[j]!;
        const [bx, by] = ring[i]!;
        if (ay > y !== by > y) crossings.push(ax + ((y - ay) / (by - ay)) * (bx - ax));
      }
      crossings.sort((a, b) => a - b);
      for (let i = 1; i < crossings.length; i += 2) stretches[row]!.push([crossings[i - 1]!, crossings[i]!]);
    }
  }
  return stretches.map((row) => {
    const cells = row
      .map(([left, right]): [number, number] => [
        Math.max(0, Math.floor((left - from.x) / cell - 1e-6)),
        Math.max(0, Math.floor((right - from.x) / cell - 1e-6)),
      ])
      .sort((a, b) => a[0] - b[0]);
    const runs: [number, number][] = [];
    for (const [first, last] of cells) {
      const before = runs.at(-1);
      if (before && first <= before[1] + 1) before[1] = Math.max(before[1], last);
      else runs.push([first, last]);
    }
    return runs;
  });
}

/**
 * How far left and right the points within `grown` of a straight stretch reach between two heights: around each end
 * where the disc is widest there, and along the sides of the strip between. Null for nowhere.
 */
function grownReach(
  [ax, ay]: Point,
  [bx, by]: Point,
  grown: number,
  top: number,
  bottom: number,
): [number, number] | null {
  let left = Number.POSITIVE_INFINITY;
  let right = Number.NEGATIVE_INFINITY;
  const offA = Math.max(0, top - ay, ay - bottom);
  if (offA <= grown) {
    const half = Math.sqrt(grown * grown - offA * offA);
    left = ax - half;
    right = ax + half;
  }
  const offB = Math.max(0, top - by, by - bottom);
  if (offB <= grown) {
    const half = Math.sqrt(grown * grown - offB * offB);
    left = Math.min(left, bx - half);
    right = Math.max(right, bx + half);
  }
  const length = Math.hypot(bx - ax, by - ay);
  if (length > 0 && by !== ay) {
    for (let side = -1; side <= 1; side += 2) {
      const nx = (side * grown * (ay - by)) / length;
      const ny = (side * grown * (bx - ax)) / length;
      // Where this side of the strip enters and leaves the band, as shares of its length.
      const atTop = (top - ay - ny) / (by - ay);
      const atBottom = (bottom - ay - ny) / (by - ay);
      const from = Math.max(0, Math.min(atTop, atBottom));
      const to = Math.min(1, Math.max(atTop, atBottom));
      if (from > to) continue;
      const x = ax + nx + from * (bx - ax);
      const y = ax + nx + to * (bx - ax);
      left = Math.min(left, x, y);
      right = Math.max(right, x, y);
    }
  }
  return left <= right ? [left, right] : null;
}

/** The same raster with across and down exchanged. */
function transposed(raster: Raster): Raster {
  const rows: [number, number][][] = Array.from({ length: raster.columns }, () => []);
  for (let row = 0; row < raster.rows; row++) {
    for (let i = raster.starts[row]!; i < raster.starts[row + 1]!; i += 2) {
      for (let column = raster.runs[i]!; column <= raster.runs[i + 1]!; column++) {
        const last = rows[column]!.at(-1);
        if (last && last[1] === row - 1) last[1] = row;
        else rows[column]!.push([row, row]);
      }
    }
  }
  return { ...raster, lastColumn: raster.lastRow, lastRow: raster.lastColumn, ...packed(rows) };
}

// ---------------------------------------------------------------- orders

/** Items in the order they are laid: by falling area, longest side or height, then each with neighbours swapped. */
function orderOf(
  items: readonly number[],
  shapes: readonly (readonly Raster[])[],
  tryNumber: number,
  random: () => number,
): readonly number[] {
  const measures: readonly ((raster: Raster) => number)[] = [
    ({ cells }) => cells,
    ({ rows, columns }) => Math.max(rows, columns) + Math.min(rows, columns) / 1e4,
    ({ rows, columns }) => rows * columns,
  ];
  const measure = measures[tryNumber % measures.length]!;
  const isShaken = tryNumber >= measures.length;
  const size = shapes.map((rasters) => (rasters[0] ? measure(rasters[0]) : 0));
  const weight = items.map((shape) => size[shape]! * (isShaken ? 0.75 + 0.5 * random() : 1));
  return items.map((_, i) => i).sort((a, b) => weight[b]! - weight[a]! || items[a]! - items[b]! || a - b);
}

// ---------------------------------------------------------------- filling sheets

/** Where a shape lies on a sheet, and how it is turned. */
interface Place {
  readonly raster: Raster;
  readonly column: number;
  readonly row: number;
}

interface Spot extends Place {
  readonly sheet: number;
}

interface Laying {
  /** In the order of the items. */
  readonly spots: readonly Spot[];
  readonly sheets: number;
  /** Cells covered on the last sheet. */
  readonly lastUsed: number;
  readonly isLying: boolean;
}

interface Filling {
  readonly store: CellStore;
  readonly most: number;
  readonly bestUsed: number;
  readonly work: { left: number };
}

/** Which cells of a sheet are covered, a bit a cell, so that a ground is small enough to be copied for each item. */
interface Cells {
  /** Row after row, in whole words; those past the last column count as covered. */
  readonly bits: Int32Array;
  /** Length of the longest free stretch of each row. */
  readonly longestFree: Int16Array;
}

/**
 * A sheet as far as it is filled. Sheets filled with the same shapes in the same turn are one and the same ground:
 * with many copies most of them are, and what one was asked before is known.
 */
interface Ground {
  /** The ground before the last item came on it, and where that lies; null for a bare sheet. */
  readonly before: { readonly ground: Ground; readonly spot: Place } | null;
  readonly free: number;
  readonly used: number;
  /** Highest row that is still worth looking at for a raster, where it was looked for here; past its last row when none is. */
  readonly from: Map<Raster, number>;
  /** What was found for a shape, by its rasters. */
  readonly answers: Map<readonly Raster[], Answer>;
  /** Sheets that are filled so far and no farther. */
  sheets: number;
  /** Made from the grounds before where they are not at hand. */
  cells: Cells | null;
}

interface Answer {
  /** Null where there is no room. */
  readonly place: Place | null;
  /** The ground with the shape on it, once it was laid. */
  after: Ground | null;
}

/** Sheets looked back at for a place, by the first try, which is to be quick, and by later ones; older ones are as good as full. */
const SHEETS_LOOKED_AT = { first: 16, later: 80 };

function fill(
  items: readonly number[],
  order: readonly number[],
  shapes: readonly (readonly Raster[])[],
  { store, most, bestUsed, work }: Filling,
): Omit<Laying, 'isLying'> | null {
  const isFirst = most === Number.POSITIVE_INFINITY;
  const lookedAt = isFirst ? SHEETS_LOOKED_AT.first : SHEETS_LOOKED_AT.later;
  const bare = store.bare();
  /** The ground of each sheet, as it is now. */
  const grounds: Ground[] = [];
  const spots: Spot[] = [];
  const open: number[] = [];
  const asked = (ground: Ground, rasters: readonly Raster[]): Answer => {
    let answer = ground.answers.get(rasters);
    if (!answer) {
      answer = { place: bestSpot(ground, rasters, store, work), after: null };
      ground.answers.set(rasters, answer);
    }
    return answer;
  };
  for (const item of order) {
    if (!isFirst && work.left < 0) return null;
    const rasters = shapes[items[item]!]!;
    let sheet = -1;
    let answer: Answer | null = null;
    for (const one of open) {
      if (grounds[one]!.free < rasters[0]!.cells) continue;
      answer = asked(grounds[one]!, rasters);
      if (!answer.place) continue;
      sheet = one;
      break;
    }
    if (sheet < 0) {
      if (grounds.length >= most) return null;
      sheet = grounds.push(bare) - 1;
      bare.sheets++;
      open.push(sheet);
      if (open.length > lookedAt) open.shift();
      answer = asked(bare, rasters);
    }
    const place = answer!.place!;
    const after = answer!.after ?? laidOn(grounds[sheet]!, place);
    answer!.after = after;
    grounds[sheet]!.sheets--;
    after.sheets++;
    grounds[sheet] = after;
    spots[item] = { sheet, ...place };
    if (grounds.length === most && grounds.at(-1)!.used >= bestUsed) return null;
  }
  return { spots, sheets: grounds.length, lastUsed: grounds.at(-1)!.used };
}

const laidOn = (ground: Ground, spot: Place): Ground => ({
  before: { ground, spot },
  free: ground.free - spot.raster.cells,
  used: ground.used + spot.raster.cells,
  from: new Map(),
  answers: new Map(),
  sheets: 0,
  cells: null,
});

/** Gives grounds their cells. */
interface CellStore {
  readonly columns: number;
  /** Words to a row. */
  readonly stride: number;
  /** A sheet on which nothing lies; those handed out before are done with. */
  bare(): Ground;
  cellsOf(ground: Ground): Cells;
}

/** Grounds whose cells are kept at hand: all sheets that are looked back at, and one to make the next from. */
const MOST_AT_HAND = SHEETS_LOOKED_AT.later + 1;

function cellStore(columns: number, rows: number): CellStore {
  const stride = (columns >>> 5) + 1;
  const bare: Cells = {
    bits: new Int32Array(stride * rows),
    longestFree: new Int16Array(rows).fill(columns),
  };
  for (let row = 0; row < rows; row++) bare.bits[(row + 1) * stride - 1] = -1 << (columns & 31);
  /** In the order they were last asked for. */
  const atHand = new Set<Ground>();
  const unused: Cells[] = [];
  const takeBack = (ground: Ground): Cells => {
    atHand.delete(ground);
    const cells = ground.cells!;
    ground.cells = null;
    return cells;
  };
  const someCells = (): Cells => {
    if (atHand.size >= MOST_AT_HAND) for (const oldest of atHand) return takeBack(oldest);
    return unused.pop() ?? { bits: new Int32Array(stride * rows), longestFree: new Int16Array(rows) };
  };
  return {
    columns,
    stride,
    bare() {
      for (const ground of atHand) unused.push(takeBack(ground));
      return {
        before: null,
        free: columns * rows,
        used: 0,
        from: new Map(),
        answers: new Map(),
        sheets: 0,
        cells: null,
      };
    },
    cellsOf(ground) {
      if (!ground.cells) {
        // Back to the last ground that still has its cells, then forward again.
        const missing: Place[] = [];
        let from: Ground | null = ground;
        while (from && !from.cells) {
          if (from.before) missing.push(from.before.spot);
          from = from.before?.ground ?? null;
        }
        const known = from?.cells ?? bare;
        // What no sheet is any more is written over.
        const cells = from?.cells && from.sheets === 0 ? takeBack(from) : someCells();
        if (cells !== known) {
          cells.bits.set(known.bits);
          cells.longestFree.set(known.longestFree);
        }
        for (const spot of missing.reverse()) cover(cells, spot, columns, stride);
        ground.cells = cells;
      }
      atHand.delete(ground);
      atHand.add(ground);
      return ground.cells;
    },
  };
}

/** Of all turns the spot that ends highest, then farthest left, then the turn that comes first. */
function bestSpot(
  ground: Ground,
  rasters: readonly Raster[],
  store: CellStore,
  work: { left: number },
): Place | null {
  let place: Place | null = null;
  let bestEnd = Number.POSITIVE_INFINITY;
  let bestRight = Number.POSITIVE_INFINITY;
  for (const raster of rasters) {
    const found = firstSpot(ground, raster, bestEnd - raster.rows, store, work);
    if (!found) continue;
    const end = found.row + raster.rows;
    const right = found.column + raster.columns;
    if (end > bestEnd || (end === bestEnd && right >= bestRight)) continue;
    place = { raster, ...found };
    bestEnd = end;
    bestRight = right;
  }
  return place;
}

/** The highest free row for a raster down to `lastRow`, and the leftmost column in it. */
function firstSpot(
  ground: Ground,
  raster: Raster,
  lastRow: number,
  store: CellStore,
  work: { left: number },
): { readonly row: number; readonly column: number } | null {
  const last = Math.min(raster.lastRow, lastRow);
  let row = firstWorthwhile(ground, raster);
  if (row > last) return null;
  const { columns, stride } = store;
  const { bits, longestFree } = store.cellsOf(ground);
  const { runs, starts, rows, lastColumn, longest, widest } = raster;
  let steps = 0;
  // The row of the raster that hit something last is looked at first: it will most often again.
  let first = 0;
  for (; row <= last; row++) {
    steps++;
    // Where the longest run finds no free stretch of its length, nothing need be looked at closely.
    if (longestFree[row + widest]! < longest[widest]! || longestFree[row + first]! < longest[first]!)
      continue;
    let column = 0;
    search: while (column <= lastColumn) {
      for (let n = 0; n < rows; n++) {
        const k = n === 0 ? first : n <= first ? n - 1 : n;
        const base = (row + k) * stride;
        for (let i = starts[k]!; i < starts[k + 1]!; i += 2) {
          steps++;
          const hit = nextCovered(bits, base, column + runs[i]!, column + runs[i + 1]!);
          if (hit < 0) continue;
          // Until its run's left end is past what it hit, it hits it still.
          column = nextFree(bits, base, hit, columns) - runs[i]!;
          first = k;
          continue search;
        }
      }
      work.left -= steps;
      ground.from.set(raster, row);
      return { row, column };
    }
  }
  work.left -= steps;
  ground.from.set(raster, row);
  return null;
}

/** The row where a search begins: what lies on a ground lies on all that come after it. */
function firstWorthwhile(ground: Ground, raster: Raster): number {
  for (let one: Ground | undefined = ground; one; one = one.before?.ground) {
    const row = one.from.get(raster);
    if (row !== undefined) return row;
  }
  return 0;
}

/** The first covered cell of a row from one cell to another; -1 for none. `base` is the row's first word. */
function nextCovered(bits: Int32Array, base: number, from: number, to: number): number {
  const last = to >>> 5;
  let at = from >>> 5;
  let word = bits[base + at]! & (-1 << (from & 31));
  while (word === 0) {
    if (++at > last) return -1;
    word = bits[base + at]!;
  }
  const found = (at << 5) + lowestBit(word);
  return found > to ? -1 : found;
}

/** The first free cell of a row from one cell on; `columns` for none. */
function nextFree(bits: Int32Array, base: number, from: number, columns: number): number {
  const last = columns >>> 5;
  let at = from >>> 5;
  let word = ~bits[base + at]! & (-1 << (from & 31));
  while (word === 0) {
    if (++at > last) return columns;
    word = ~bits[base + at]!;
  }
  return (at << 5) + lowestBit(word);
}

const lowestBit = (word: number): number => 31 - Math.clz32(word & -word);

function cover(
  { bits, longestFree }: Cells,
  { raster, column, row }: Place,
  columns: number,
  stride: number,
): void {
  for (let k = 0; k < raster.rows; k++) {
    const base = (row + k) * stride;
    for (let i = raster.starts[k]!; i < raster.starts[k + 1]!; i += 2) {
      const from = column + raster.runs[i]!;
      const to = column + raster.runs[i + 1]!;
      for (let at = from >>> 5; at <= to >>> 5; at++) {
        const low = at === from >>> 5 ? -1 << (from & 31) : -1;
        const high = at === to >>> 5 ? -1 >>> (31 - (to & 31)) : -1;
        bits[base + at]! |= low & high;
      }
    }
    let most = 0;
    for (let x = nextFree(bits, base, 0, columns); x < columns; ) {
      const found = nextCovered(bits, base, x, columns - 1);
      const end = found < 0 ? columns : found;
      if (end - x > most) most = end - x;
      x = nextFree(bits, base, end, columns);
    }
    longestFree[row + k] = most;
  }
}
