import type { Point, Ring } from '../../geometry/point.ts';
import type { Box } from '../../geometry/ring.ts';
import type { ViewSize } from '../camera.ts';
import type { Pen } from './pen.ts';

/** One thing on a canvas that comes and goes by itself. */
export interface Figure {
  /** Two figures with one key look the same through one camera. */
  readonly key: unknown;
  /** Boxes that cover it, CSS pixels of the board; the smaller they are, the less is drawn again with it. */
  readonly boxes: () => readonly Box[];
  readonly draw: (pen: Pen) => void;
}

/** Side of the squares that a canvas is wiped and drawn anew in, CSS pixels. */
export const TILE_PX = 32;

/** With more of its squares than this to be drawn anew, a canvas is drawn whole. */
const MOST_SHARE = 0.6;

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

/** What lies on a canvas as it was last drawn. */
export class Canvasful {
  readonly #columns: number;
  readonly #rows: number;
  readonly #figures: ReadonlyMap<unknown, Figure>;
  /** The squares that figures stand on, by their keys. */
  readonly #tiles: Map<unknown, readonly number[]>;

  /** `before`: what lay on the same canvas, through the same camera, when it was drawn last. */
  constructor(view: ViewSize, figures: Iterable<Figure>, before: Canvasful | null = null) {
    this.#columns = Math.ceil(view.width / TILE_PX);
    this.#rows = Math.ceil(view.height / TILE_PX);
    this.#figures = new Map(Array.from(figures, (figure) => [figure.key, figure]));
    this.#tiles = new Map();
    if (before === null) return;
    for (const [key, tiles] of before.#tiles) if (this.#figures.has(key)) this.#tiles.set(key, tiles);
  }

  /**
   * Makes of a canvas that shows `before` one that shows this: wipes the squares in which a figure has come or gone,
   * and has what lies in them painted within them. False, and nothing is done, when that would be most of the canvas.
   */
  paintOver(pen: Pen, before: Canvasful, paint: (pen: Pen, figures: readonly Figure[]) => void): boolean {
    const changed = new Set<number>();
    for (const [one, other] of [
      [this, before],
      [before, this],
    ] as const)
      for (const figure of one.#figures.values())
        if (!other.#figures.has(figure.key)) for (const tile of one.#tilesOf(figure)) changed.add(tile);
    if (changed.size > MOST_SHARE * this.#columns * this.#rows) return false;
    if (changed.size === 0) return true;
    const { ctx } = pen;
    ctx.save();
    ctx.beginPath();
    for (const { minX, minY, maxX, maxY } of this.#runs(changed))
      ctx.rect(minX, minY, maxX - minX, maxY - minY);
    ctx.clip();
    ctx.clearRect(0, 0, this.#columns * TILE_PX, this.#rows * TILE_PX);
    const figures = [...this.#figures.values()];
    paint(
      pen,
      figures.filter((figure) => this.#tilesOf(figure).some((tile) => changed.has(tile))),
    );
    ctx.restore();
    return true;
  }

  #tilesOf(figure: Figure): readonly number[] {
    const known = this.#tiles.get(figure.key);
    if (known !== undefined) return known;
    const tiles = new Set<number>();
    for (const { minX, minY, maxX, maxY } of figure.boxes()) {
      const lastColumn = Math.min(this.#columns - 1, Math.floor(maxX / TILE_PX));
      const lastRow = Math.min(this.#rows - 1, Math.floor(maxY / TILE_PX));
      for (let row = Math.max(0, Math.floor(minY / TILE_PX)); row <= lastRow; row++)
        for (let column = Math.max(0, Math.floor(minX / TILE_PX)); column <= lastColumn; column++)
          tiles.add(row * this.#columns + column);
    }
    const all = [...tiles];
    this.#tiles.set(figure.key, all);
    return all;
  }

  /** Squares side by side in one row as one box. */
  *#runs(tiles: ReadonlySet<number>): Generator<Box> {
    for (let row = 0; row < this.#rows; row++) {
      let from = -1;
      for (let column = 0; column <= this.#columns; column++) {
        const isIn = column < this.#columns && tiles.has(row * this.#columns + column);
        if (isIn && from < 0) from = column;
        if (isIn || from < 0) continue;
        const [minY, maxY] = [row * TILE_PX, (row + 1) * TILE_PX];
        yield { minX: from * TILE_PX, minY, maxX: column * TILE_PX, maxY };
        from = -1;
      }
    }
  }
}
