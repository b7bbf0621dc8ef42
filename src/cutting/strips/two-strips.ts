import { ROUNDING } from './cloth.ts';
import type { Pick } from './fullest-strip.ts';
import type { Sort } from './sorts.ts';

/** Pairs of heights looked into for one pool of cuts. */
const MOST_PAIRS = 24;
const OUT = 1 << 20;

/**
 * All of some cuts in two strips of least total height, exactly: for a pair of heights each cut goes into one strip
 * or the other, lying the narrower way that is low enough, and for every width used of the first the least width of
 * the second is known. Cost: O(cuts × capacity) a pair, counted in `steps`.
 */
export class TwoStrips {
  steps = 0;
  private readonly least: Int32Array;
  private chosen: Uint8Array;

  constructor(
    private readonly sorts: readonly Sort[],
    private readonly capacity: number,
    private readonly random: () => number,
  ) {
    this.least = new Int32Array(capacity + 1);
    this.chosen = new Uint8Array(64 * (capacity + 1));
  }

  /**
   * `counts`: cuts of each sort. `heights`: those that make sense, rising. Null where nothing shorter than `limit` is
   * found. The heights are tried from the least sum up, equal sums in random order.
   */
  fill(counts: ArrayLike<number>, heights: readonly number[], limit: number): Filling | null {
    const cuts: number[] = [];
    let area = 0;
    let tallest = 0;
    for (let sort = 0; sort < this.sorts.length; sort++) {
      for (let i = 0; i < counts[sort]!; i++) cuts.push(sort);
      if (counts[sort]! > 0) {
        area += counts[sort]! * this.sorts[sort]!.area;
        tallest = Math.max(tallest, this.sorts[sort]!.least);
      }
    }
    const own = new Set(cuts.flatMap((sort) => this.sorts[sort]!.ways.map(({ height }) => height)));
    const sensible = heights.filter((height) => own.has(height));
    const pairs: { a: number; b: number; key: number }[] = [];
    for (const a of sensible) {
      if (a < tallest) continue;
      if (a > limit) break;
      for (const b of sensible) {
        if (b > a) break;
        const sum = a + b;
        if (sum >= limit || sum * this.capacity < area - ROUNDING) continue;
        pairs.push({ a, b, key: sum + 1e-7 * this.random() });
      }
    }
    pairs.sort((one, other) => one.key - other.key);
    const stride = Math.max(1, pairs.length / MOST_PAIRS);
    for (let i = 0; i < pairs.length; i += stride) {
      const { a, b } = pairs[Math.floor(i)]!;
      const picks = this.split(cuts, a, b);
      if (picks) return picks.filter((own) => own.length > 0).map((own) => this.closeFitting(own));
    }
    return null;
  }

  /** A strip as low as its cuts allow. */
  private closeFitting(picks: readonly Pick[]): Filling[number] {
    const heights = picks.map(({ sort, way }) => this.sorts[sort]!.ways[way]!.height);
    return { height: Math.max(...heights), picks };
  }

  private split(cuts: readonly number[], a: number, b: number): [Pick[], Pick[]] | null {
    const { least, capacity, sorts } = this;
    const columns = capacity + 1;
    if (cuts.length * columns > this.chosen.length) this.chosen = new Uint8Array(2 * cuts.length * columns);
    const { chosen } = this;
    least.fill(0);
    for (const [row, sort] of cuts.entries()) {
      const inA = narrowest(sorts[sort]!, a);
      const inB = narrowest(sorts[sort]!, b);
      const ticksA = inA < 0 ? OUT : sorts[sort]!.ways[inA]!.ticks;
      const ticksB = inB < 0 ? OUT : sorts[sort]!.ways[inB]!.ticks;
      const at = row * columns;
      for (let used = capacity; used >= 0; used--) {
        const second = least[used]! + ticksB;
        const first = used >= ticksA ? least[used - ticksA]! : OUT;
        const isFirst = first < second;
        least[used] = isFirst ? first : second;
        chosen[at + used] = isFirst ? 1 : 0;
      }
      this.steps += capacity;
      if (least[capacity]! > capacity) return null;
    }
    const inFirst: Pick[] = [];
    const inSecond: Pick[] = [];
    let used = capacity;
    for (let row = cuts.length - 1; row >= 0; row--) {
      const sort = cuts[row]!;
      if (chosen[row * columns + used] === 1) {
        const way = narrowest(sorts[sort]!, a);
        inFirst.push({ sort, way, count: 1 });
        used -= sorts[sort]!.ways[way]!.ticks;
      } else inSecond.push({ sort, way: narrowest(sorts[sort]!, b), count: 1 });
    }
    return [inFirst, inSecond];
  }
}

type Filling = readonly { readonly height: number; readonly picks: readonly Pick[] }[];

/** The narrowest way that is no taller than a strip; -1 when none is. */
function narrowest({ ways }: Sort, height: number): number {
  let best = -1;
  for (let way = 0; way < ways.length; way++) {
    if (ways[way]!.height > height + ROUNDING) continue;
    if (best < 0 || ways[way]!.ticks < ways[best]!.ticks) best = way;
  }
  return best;
}
