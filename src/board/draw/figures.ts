import type { Point, Ring } from '../../geometry/point.ts';
import type { Box } from '../../geometry/ring.ts';
import type { ViewSize } from '../camera.ts';
import type { Pen } from './pen.ts';

/** One thing on a canvas that comes and goes by itself. */
export interface Figure {
  /** Two figures with one key look the same through one camera. Made when it is read: who draws all needs none. */
  readonly key: unknown;
  /** Boxes that cover it, CSS pixels of the board; the smaller they are, the less is drawn again with it. */
  readonly boxes: () => readonly Box[];
  readonly draw: (pen: Pen) => void;
}

/** Side of the squares that a canvas is wiped and drawn anew in, CSS pixels. */
export const TILE_PX = 32;

/** With more of its squares than this to be drawn anew, a canvas is drawn whole. */
const MOST_SHARE = 0.6;

/** So it is where boxes would draw so many times the figures there are: what reaches through many is drawn in each. */
const MOST_DRAWINGS = 1.3;

/** Boxes along a line, none much larger than a square of the canvas. `reach`: how far the ink goes from it. */
export function boxesAlong(points: Ring, reach: number, closed = false): readonly Box[] {
  const boxes: Box[] = [];
  for (let k = closed ? 0 : 1; k < points.length; k++) {
    const [ax, ay] = points[(k + points.length - 1) % points.length]!;
    const [bx, by] = points[k]!;
    const parts = Math.max(1, Math.ceil(Math.hypot(bx - ax, by - ay) / TILE_PX));
    const [dx, dy] = [(bx - ax) / parts, (by - ay) / parts];
    for (let part = 0; part < parts; part++) {
      const [x, y] = [ax + part * dx, ay + part * dy];
      boxes.push({
        minX: Math.min(x, x + dx) - reach,
        minY: Math.min(y, y + dy) - reach,
        maxX: Math.max(x, x + dx) + reach,
        maxY: Math.max(y, y + dy) + reach,
      });
    }
  }
  return boxes;
}

/** The box that reaches so far to all sides of a spot. */
export const boxAbout = ([x, y]: Point, across: number, down = across): Box => ({
  minX: x - across,
  minY: y - down,
  maxX: x + across,
  maxY: y + down,
});

/** What lies on a canvas. */
export class FigureTiles {
  readonly #columns: number;
  readonly #rows: number;
  readonly #figures: ReadonlyMap<unknown, Figure>;
  /** The squares that figures stand on, by their keys. */
  readonly #tiles: Map<unknown, readonly number[]>;
  #standing: ReadonlyMap<number, readonly number[]> = new Map();

  /** `before`: what lay on the same canvas through the same camera. */
  constructor(view: ViewSize, figures: Iterable<Figure>, before: FigureTiles | null = null) {
    this.#columns = Math.ceil(view.width / TILE_PX);
    this.#rows = Math.ceil(view.height / TILE_PX);
    this.#figures = new Map(Array.from(figures, (figure) => [figure.key, figure]));
    this.#tiles = new Map();
    if (before === null) return;
    for (const [key, tiles] of before.#tiles) if (this.#figures.has(key)) this.#tiles.set(key, tiles);
  }

  /** The squares in which a figure has come or gone since `before`, row by row; all of them since nothing is known. */
  changedSince(before: FigureTiles | null): readonly number[] {
    if (before === null) return Array.from({ length: this.#columns * this.#rows }, (_, tile) => tile);
    const changed = new Set<number>();
    for (const [one, other] of [
      [this, before],
      [before, this],
    ] as const)
      for (const [key, figure] of one.#figures)
        if (!other.#figures.has(key)) for (const tile of one.#tilesOf(key, figure)) changed.add(tile);
    return [...changed].sort((a, b) => a - b);
  }

  /**
   * Wipes squares of the canvas and has what stands on them painted within them; the first of them, until about `most`
   * figures are painted. Returns those that are left.
   */
  paintIn(
    pen: Pen,
    owed: readonly number[],
    paint: (pen: Pen, figures: readonly Figure[]) => void,
    most = Number.POSITIVE_INFINITY,
  ): readonly number[] {
    const { ctx } = pen;
    const figures = [...this.#figures.values()];
    const standing = this.#standingOn(owed);
    const tiles = new Set<number>();
    const inThem = new Set<number>();
    while (owed.length > tiles.size && inThem.size < most) {
      const tile = owed[tiles.size]!;
      tiles.add(tile);
      for (const index of standing.get(tile) ?? []) inThem.add(index);
    }
    // Box by box: to keep to one of them costs a canvas nothing, to keep to many at once more than what is painted.
    const boxes = Array.from(this.#boxesOf(tiles), (box) => {
      const here = new Set(this.#tilesIn(box).flatMap((tile) => standing.get(tile) ?? []));
      return { box, here: [...here].sort((a, b) => a - b) };
    });
    const drawings = boxes.reduce((sum, { here }) => sum + here.length, 0);
    if (tiles.size > MOST_SHARE * this.#columns * this.#rows || drawings > MOST_DRAWINGS * figures.length) {
      ctx.clearRect(0, 0, this.#columns * TILE_PX, this.#rows * TILE_PX);
      paint(pen, figures);
      return [];
    }
    for (const { box, here } of boxes) {
      const { minX, minY, maxX, maxY } = box;
      ctx.save();
      ctx.beginPath();
      ctx.rect(minX, minY, maxX - minX, maxY - minY);
      ctx.clip();
      ctx.clearRect(minX, minY, maxX - minX, maxY - minY);
      paint(
        pen,
        here.map((index) => figures[index]!),
      );
      ctx.restore();
    }
    return owed.slice(tiles.size);
  }

  /** Which figures stand on each of some squares, by their places from the lowest up. */
  #standingOn(tiles: readonly number[]): ReadonlyMap<number, readonly number[]> {
    // Squares that are painted some at a time are all asked for at first.
    if (tiles.every((tile) => this.#standing.has(tile))) return this.#standing;
    const standing = new Map(tiles.map((tile): [number, number[]] => [tile, []]));
    let index = 0;
    for (const [key, figure] of this.#figures) {
      for (const tile of this.#tilesOf(key, figure)) standing.get(tile)?.push(index);
      index++;
    }
    this.#standing = standing;
    return standing;
  }

  #tilesOf(key: unknown, figure: Figure): readonly number[] {
    const known = this.#tiles.get(key);
    if (known !== undefined) return known;
    const tiles = new Set<number>();
    for (const box of figure.boxes()) for (const tile of this.#tilesIn(box)) tiles.add(tile);
    const all = [...tiles];
    this.#tiles.set(key, all);
    return all;
  }

  /** The squares of the canvas that a box touches; one that ends on a line between squares ends there. */
  #tilesIn({ minX, minY, maxX, maxY }: Box): readonly number[] {
    const tiles: number[] = [];
    const lastColumn = Math.min(this.#columns, Math.ceil(maxX / TILE_PX)) - 1;
    const lastRow = Math.min(this.#rows, Math.ceil(maxY / TILE_PX)) - 1;
    for (let row = Math.max(0, Math.floor(minY / TILE_PX)); row <= lastRow; row++)
      for (let column = Math.max(0, Math.floor(minX / TILE_PX)); column <= lastColumn; column++)
        tiles.push(row * this.#columns + column);
    return tiles;
  }

  /** Squares side by side as one box, and such rows one below another as one. */
  *#boxesOf(tiles: ReadonlySet<number>): Generator<Box> {
    let open: Box[] = [];
    for (let row = 0; row < this.#rows; row++) {
      const minY = row * TILE_PX;
      const grown: Box[] = [];
      for (const [minX, maxX] of this.#runsIn(row, tiles)) {
        const above = open.find((box) => box.minX === minX && box.maxX === maxX);
        grown.push({ minX, minY: above?.minY ?? minY, maxX, maxY: minY + TILE_PX });
        if (above !== undefined) open = open.filter((box) => box !== above);
      }
      yield* open;
      open = grown;
    }
    yield* open;
  }

  /** From where to where squares lie side by side in a row, pixels. */
  *#runsIn(row: number, tiles: ReadonlySet<number>): Generator<readonly [number, number]> {
    let from = -1;
    for (let column = 0; column <= this.#columns; column++) {
      const isIn = column < this.#columns && tiles.has(row * this.#columns + column);
      if (isIn && from < 0) from = column;
      if (isIn || from < 0) continue;
      yield [from * TILE_PX, column * TILE_PX];
      from = -1;
    }
  }
}
