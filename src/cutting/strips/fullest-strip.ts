import { ROUNDING } from './cloth.ts';
import type { Sort } from './sorts.ts';

/** So many cuts of one sort, lying one way. */
export interface Pick {
  readonly sort: number;
  readonly way: number;
  readonly count: number;
}

/**
 * Fills one strip of a given height: the cuts of largest total worth that fit side by side. A bounded knapsack over
 * the width in ticks, each sort in chunks of 1, 2, 4 …, a chunk lying either way. Exact but for chunks that would
 * have to be split between ways. Cost: O(chunks × capacity), counted in `steps`.
 */
export class FullestStrip {
  /** Work done so far: ticks looked at. */
  steps = 0;
  private readonly best: Float64Array;
  /** By chunk and ticks: 0 left out, 1 or 2 the way taken. */
  private chosen: Uint8Array;

  constructor(
    private readonly sorts: readonly Sort[],
    private readonly capacity: number,
  ) {
    this.best = new Float64Array(capacity + 1);
    this.chosen = new Uint8Array(64 * (capacity + 1));
  }

  /**
   * `among`: sorts looked at. `left`: how many there are of each. `worth`: of a cut by its sort and its height.
   * `room`: ticks.
   */
  fill(
    among: readonly number[],
    left: ArrayLike<number>,
    height: number,
    room: number,
    worth: (sort: number, height: number) => number,
  ): Pick[] {
    const { best } = this;
    const columns = this.capacity + 1;
    best.fill(0, 0, room + 1);
    const chunks: { sort: number; count: number }[] = [];
    for (const sort of among) {
      const ways = this.sorts[sort]!.ways;
      const first = ways[0]!;
      const second = ways[1];
      const a = first.height <= height + ROUNDING && first.ticks <= room ? first : null;
      const b = second && second.height <= height + ROUNDING && second.ticks <= room ? second : null;
      if (!a && !b) continue;
      const narrow = Math.min(a?.ticks ?? room, b?.ticks ?? room);
      let rest = Math.min(left[sort]!, Math.floor(room / Math.max(1, narrow)));
      const worthA = a ? worth(sort, a.height) : 0;
      const worthB = b ? worth(sort, b.height) : 0;
      for (let size = 1; rest > 0; size *= 2) {
        const count = Math.min(size, rest);
        rest -= count;
        const row = chunks.length * columns;
        if (row + columns > this.chosen.length) this.grow();
        const { chosen } = this;
        chosen.fill(0, row, row + room + 1);
        chunks.push({ sort, count });
        const ticksA = a ? a.ticks * count : room + 1;
        const ticksB = b ? b.ticks * count : room + 1;
        const gainA = worthA * count;
        const gainB = worthB * count;
        const least = Math.min(ticksA, ticksB);
        for (let at = room; at >= least; at--) {
          let value = best[at]!;
          let way = 0;
          if (at >= ticksA) {
            const withA = best[at - ticksA]! + gainA;
            if (withA > value) {
              value = withA;
              way = 1;
            }
          }
          if (at >= ticksB) {
            const withB = best[at - ticksB]! + gainB;
            if (withB > value) {
              value = withB;
              way = 2;
            }
          }
          if (way > 0) {
            best[at] = value;
            chosen[row + at] = way;
          }
        }
        this.steps += room;
      }
    }
    const picks: Pick[] = [];
    let at = room;
    for (let i = chunks.length - 1; i >= 0; i--) {
      const way = this.chosen[i * columns + at]!;
      if (way === 0) continue;
      const { sort, count } = chunks[i]!;
      picks.push({ sort, way: way - 1, count });
      at -= this.sorts[sort]!.ways[way - 1]!.ticks * count;
    }
    return picks;
  }

  private grow(): void {
    const larger = new Uint8Array(2 * this.chosen.length);
    larger.set(this.chosen);
    this.chosen = larger;
  }
}
