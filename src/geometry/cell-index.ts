import type { Box } from './ring.ts';

/** Columns at most, and rows. */
const MOST_CELLS = 512;

/**
 * A grid of cells over a box that answers "what is near": segments are entered in every cell they
 * pass, points in the one they lie in. Whatever lies beyond the box counts to the cells at its rim.
 * Four cells a segment measured fastest: a cell then holds a few of each.
 */
export class CellIndex {
  readonly #columns: number;
  readonly #rows: number;
  readonly #minX: number;
  readonly #minY: number;
  readonly #maxX: number;
  readonly #maxY: number;
  readonly #perX: number;
  readonly #perY: number;
  readonly #reach: number;
  readonly #segmentHead: Int32Array;
  readonly #segmentNext: number[] = [];
  readonly #segmentItem: number[] = [];
  readonly #segmentCell: number[] = [];
  readonly #firstEntry: Int32Array;
  readonly #pointHead: Int32Array;
  readonly #pointNext: number[] = [];
  readonly #seen: Int32Array;
  #stamp = 0;

  /**
   * `reach`: how far from a segment its cells extend, in inches. `across` and `down`: how far segments go that way on the
   * whole; cells are the longer that way, so that long lines pass few.
   */
  constructor(box: Box, segments: number, reach: number, across: number, down: number) {
    const width = Math.max(box.maxX - box.minX, 1e-6);
    const height = Math.max(box.maxY - box.minY, 1e-6);
    const size = Math.sqrt((width * height) / Math.max(1, 4 * segments));
    const longer = Math.sqrt((across + size) / (down + size));
    this.#columns = Math.max(1, Math.min(MOST_CELLS, Math.ceil(width / (size * longer))));
    this.#rows = Math.max(1, Math.min(MOST_CELLS, Math.ceil((height * longer) / size)));
    this.#minX = box.minX;
    this.#minY = box.minY;
    this.#maxX = box.maxX;
    this.#maxY = box.maxY;
    this.#perX = this.#columns / width;
    this.#perY = this.#rows / height;
    this.#reach = reach;
    this.#segmentHead = new Int32Array(this.#columns * this.#rows).fill(-1);
    this.#pointHead = new Int32Array(this.#columns * this.#rows).fill(-1);
    this.#firstEntry = new Int32Array(segments + 1).fill(-1);
    this.#seen = new Int32Array(segments).fill(-1);
  }

  #column(x: number): number {
    const c = Math.floor((x - this.#minX) * this.#perX);
    return c < 0 ? 0 : c >= this.#columns ? this.#columns - 1 : c;
  }

  #row(y: number): number {
    const r = Math.floor((y - this.#minY) * this.#perY);
    return r < 0 ? 0 : r >= this.#rows ? this.#rows - 1 : r;
  }

  /** Enters a segment; items must be entered in rising order. False when it stays out of the box. */
  addSegment(item: number, ax: number, ay: number, bx: number, by: number): boolean {
    const reach = this.#reach;
    this.#firstEntry[item] = this.#segmentItem.length;
    this.#firstEntry[item + 1] = this.#segmentItem.length;
    const leftX = Math.max(Math.min(ax, bx), this.#minX - reach);
    const rightX = Math.min(Math.max(ax, bx), this.#maxX + reach);
    if (leftX > rightX) return false;
    const slope = ax === bx ? 0 : (by - ay) / (bx - ax);
    const lowY = Math.min(ay, by) - reach;
    const highY = Math.max(ay, by) + reach;
    const firstColumn = this.#column(leftX - reach);
    const lastColumn = this.#column(rightX + reach);
    for (let c = firstColumn; c <= lastColumn; c++) {
      // The stretch of the segment over this column, widened by the reach on both sides.
      let y0 = lowY;
      let y1 = highY;
      if (ax !== bx) {
        const x0 = c === firstColumn ? leftX : Math.max(leftX, this.#minX + c / this.#perX - reach);
        const x1 = c === lastColumn ? rightX : Math.min(rightX, this.#minX + (c + 1) / this.#perX + reach);
        const ya = ay + slope * (x0 - ax);
        const yb = ay + slope * (x1 - ax);
        const pad = reach * (1 + Math.abs(slope));
        y0 = Math.max(lowY, Math.min(ya, yb) - pad);
        y1 = Math.min(highY, Math.max(ya, yb) + pad);
      }
      if (y1 < this.#minY - reach || y0 > this.#maxY + reach) continue;
      const lastRow = this.#row(y1);
      for (let r = this.#row(y0); r <= lastRow; r++) {
        const cell = r * this.#columns + c;
        this.#segmentItem.push(item);
        this.#segmentCell.push(cell);
        this.#segmentNext.push(this.#segmentHead[cell]!);
        this.#segmentHead[cell] = this.#segmentItem.length - 1;
      }
    }
    this.#firstEntry[item + 1] = this.#segmentItem.length;
    return this.#firstEntry[item + 1]! > this.#firstEntry[item]!;
  }

  /** Calls back with every earlier segment that shares a cell with this one, each once; returns the entries passed. */
  visitNeighbours(item: number, visit: (other: number) => void): number {
    const stamp = ++this.#stamp;
    let passed = 0;
    const end = this.#firstEntry[item + 1]!;
    for (let k = this.#firstEntry[item]!; k < end; k++) {
      // Entries are linked newest first, so what follows an entry was entered before it.
      for (let e = this.#segmentNext[k]!; e >= 0; e = this.#segmentNext[e]!) {
        passed++;
        const other = this.#segmentItem[e]!;
        if (this.#seen[other] === stamp || other === item) continue;
        this.#seen[other] = stamp;
        visit(other);
      }
    }
    return passed;
  }

  /** Calls back with every segment entered in the cells within `radius` of a spot; maybe twice. */
  visitSegmentsNear(x: number, y: number, radius: number, visit: (item: number) => void): void {
    const c1 = this.#column(x + radius);
    const r1 = this.#row(y + radius);
    const c0 = this.#column(x - radius);
    const r0 = this.#row(y - radius);
    const stamp = ++this.#stamp;
    for (let r = r0; r <= r1; r++)
      for (let c = c0; c <= c1; c++)
        for (let e = this.#segmentHead[r * this.#columns + c]!; e >= 0; e = this.#segmentNext[e]!) {
          const item = this.#segmentItem[e]!;
          if (this.#seen[item] === stamp) continue;
          this.#seen[item] = stamp;
          visit(item);
        }
  }

  /** Enters a point; items must be 0, 1, 2 … in turn. */
  addPoint(item: number, x: number, y: number): void {
    const cell = this.#row(y) * this.#columns + this.#column(x);
    this.#pointNext[item] = this.#pointHead[cell]!;
    this.#pointHead[cell] = item;
  }

  /** The entered point nearest to a spot within `radius`, or -1. */
  nearestPoint(x: number, y: number, radius: number, xs: readonly number[], ys: readonly number[]): number {
    let best = -1;
    let bestSquare = radius * radius;
    const c1 = this.#column(x + radius);
    const r1 = this.#row(y + radius);
    const r0 = this.#row(y - radius);
    for (let c = this.#column(x - radius); c <= c1; c++)
      for (let r = r0; r <= r1; r++)
        for (let p = this.#pointHead[r * this.#columns + c]!; p >= 0; p = this.#pointNext[p]!) {
          const square = (xs[p]! - x) ** 2 + (ys[p]! - y) ** 2;
          if (square < bestSquare || (square === bestSquare && best < 0)) {
            best = p;
            bestSquare = square;
          }
        }
    return best;
  }
}
