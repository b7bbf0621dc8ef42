import type { Point } from '../../geometry/point.ts';
import { distance } from '../../geometry/ring.ts';

/** Spots of the screen in cells as wide as the reach, so that whoever asks what is near looks at nine cells only. */
export class Spots {
  readonly #reach: number;
  readonly #cells = new Map<number, Point[]>();

  /** `reach`: spots nearer than this are near, CSS pixels. */
  constructor(reach: number) {
    this.#reach = reach;
  }

  add(spot: Point): void {
    const key = keyOf(this.#cell(spot[0]), this.#cell(spot[1]));
    const cell = this.#cells.get(key);
    if (cell === undefined) this.#cells.set(key, [spot]);
    else cell.push(spot);
  }

  isNear(at: Point): boolean {
    const [column, row] = [this.#cell(at[0]), this.#cell(at[1])];
    for (let x = column - 1; x <= column + 1; x++)
      for (let y = row - 1; y <= row + 1; y++)
        for (const spot of this.#cells.get(keyOf(x, y)) ?? [])
          if (distance(spot, at) < this.#reach) return true;
    return false;
  }

  #cell(length: number): number {
    return Math.floor(length / this.#reach);
  }
}

/** One number for a cell; cells so far apart that two share it are only looked at twice. */
const keyOf = (x: number, y: number): number => x * 0x8000 + y;
