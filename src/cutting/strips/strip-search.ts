import { chance } from '../../geometry/chance.ts';
import { ROUNDING } from './cloth.ts';
import { FullestStrip, type Pick } from './fullest-strip.ts';
import type { Sort, Sorted } from './sorts.ts';
import { TwoStrips } from './two-strips.ts';

/** A strip by sorts, before it is known which cut is which. */
export interface Filled {
  readonly height: number;
  readonly picks: readonly Pick[];
}

/** How greedily one filling goes about it. */
interface Taste {
  /** How much a cut as tall as its strip is worth over a lower one. */
  readonly tall: number;
  /** How much a large cut is worth over as much cloth in small ones, which are wanted to fill what is left. */
  readonly large: number;
  /** How far above the lowest possible the height of a strip is sought, as a share of it. */
  readonly reach: number;
}

const TASTES: readonly Taste[] = [
  { tall: 0, large: 0, reach: 0 },
  { tall: 0.15, large: 0.05, reach: 0.35 },
  { tall: 0.3, large: 0.1, reach: 0.35 },
  { tall: 0.15, large: 0.2, reach: 0 },
];

/** How much longer a plan may be for a while, as a share: the way to a shorter one may lead through it. */
const PATIENCE = 0.02;

/** Share of the work that goes into filling everything from the start, each time with another taste. */
const FRESH_SHARE = 0.3;

/** So often everything is begun anew: each way of laying leads to its own end. */
const ROUNDS = 4;

/** What a try costs at least, even one that is given up at once. */
const STEPS_PER_TRY = 5_000;

/** Heights tried for each strip at most. */
const HEIGHTS_TRIED = 6;

/**
 * Shorter strips than those to start from, where there are any. All cuts are laid anew a few times, one strip after
 * another: each as low as the tallest cut left allows, or somewhat taller where that fills it better, and as full as
 * can be; a strip found is taken as often as there are cuts for it. Then a few strips of the best at a time are taken
 * out and filled in another way, and what is shorter, or as short, is kept. The same cuts always give the same
 * strips. `steps` bounds the work, in ticks looked at.
 */
export function searchStrips(sorted: Sorted, start: readonly Filled[], steps: number): readonly Filled[] {
  return new Search(sorted, steps).run(start);
}

class Search {
  private readonly sorts: readonly Sort[];
  private readonly random: () => number;
  private readonly knapsack: FullestStrip;
  private readonly pairs: TwoStrips;
  private tries = 0;
  private layings = 0;
  /** Strip heights that make sense, rising. */
  private readonly heights: readonly number[];

  constructor(
    private readonly sorted: Sorted,
    private readonly steps: number,
  ) {
    this.sorts = sorted.sorts;
    this.random = chance(1);
    this.knapsack = new FullestStrip(sorted.sorts, sorted.capacity);
    this.pairs = new TwoStrips(sorted.sorts, sorted.capacity, this.random);
    this.heights = [...new Set(this.sorts.flatMap(({ ways }) => ways.map(({ height }) => height)))].sort(
      (a, b) => a - b,
    );
  }

  run(start: readonly Filled[]): readonly Filled[] {
    let best = start;
    for (let round = 1; round <= ROUNDS && !this.isSpent(); round++) {
      const until = (this.steps * round) / ROUNDS;
      const found = this.improve(
        this.layAnew(until - ((1 - FRESH_SHARE) * this.steps) / ROUNDS) ?? best,
        until,
      );
      if (lengthOf(found) < lengthOf(best) - ROUNDING) best = found;
    }
    return best;
  }

  /** The shortest of several layings of all cuts, each in another taste, until so much is spent. */
  private layAnew(until: number): readonly Filled[] | null {
    const all = this.sorts.map(({ items }) => items.length);
    let best: readonly Filled[] | null = null;
    let shortest = Number.POSITIVE_INFINITY;
    while (this.spent() < until) {
      const strips = this.fillAll(all, TASTES[this.layings++] ?? this.someTaste(), shortest);
      this.tries++;
      if (!strips) continue;
      best = strips;
      shortest = lengthOf(strips);
    }
    return best;
  }

  private spent(): number {
    return this.knapsack.steps + this.pairs.steps + this.tries * STEPS_PER_TRY;
  }

  private isSpent(): boolean {
    return this.spent() >= this.steps;
  }

  private someTaste(): Taste {
    return { tall: 0.6 * this.random(), large: 0.6 * this.random(), reach: 0.6 * this.random() ** 2 };
  }

  /** Null when it comes out no shorter than `limit`, or the work allowed is spent. */
  private fillAll(
    counts: readonly number[],
    taste: Taste,
    limit: number,
    alone = Number.POSITIVE_INFINITY,
  ): Filled[] | null {
    const left = Int32Array.from(counts);
    // Sorts are in order of falling height, so what is used up at the front is never looked at again.
    let among = [...counts.keys()].filter((sort) => left[sort]! > 0);
    const strips: Filled[] = [];
    let length = 0;
    while (among.length > 0) {
      if (strips.length >= alone) {
        const last = this.pairs.fill(left, this.heights, limit - length);
        return last && [...strips, ...last];
      }
      const strip = this.bestStrip(among, left, taste);
      let often = Number.POSITIVE_INFINITY;
      for (const [sort, count] of countsOf(strip.picks))
        often = Math.min(often, Math.floor(left[sort]! / count));
      for (const { sort, count } of strip.picks) left[sort]! -= often * count;
      for (let i = 0; i < often; i++) strips.push(strip);
      length += often * strip.height;
      if (length >= limit - ROUNDING || this.isSpent()) return null;
      among = among.filter((sort) => left[sort]! > 0);
    }
    return strips;
  }

  /** The fullest strip that takes the tallest cut left. */
  private bestStrip(among: readonly number[], left: Int32Array, { tall, large, reach }: Taste): Filled {
    const forced = among[0]!;
    const { least, ways } = this.sorts[forced]!;
    const heights = this.heights.filter((height) => height >= least && height <= least * (1 + reach));
    const stride = Math.max(1, Math.ceil(heights.length / HEIGHTS_TRIED));
    let best: Filled | null = null;
    let fullest = -1;
    left[forced]! -= 1;
    for (let i = 0; i < heights.length; i += stride) {
      const height = heights[i]!;
      for (const [way, { ticks, height: own }] of ways.entries()) {
        if (own > height + ROUNDING) continue;
        const worth = (sort: number, lying: number): number => {
          const { area } = this.sorts[sort]!;
          return area * (1 + (tall * lying) / height + large * Math.min(1, area / (height * height)));
        };
        const picks = this.knapsack.fill(among, left, height, this.sorted.capacity - ticks, worth);
        picks.push({ sort: forced, way, count: 1 });
        const used = this.heightOf(picks);
        const fill = this.areaOf(picks) / used;
        if (fill <= fullest) continue;
        fullest = fill;
        best = { height: used, picks };
      }
    }
    left[forced]! += 1;
    return best!;
  }

  private heightOf(picks: readonly Pick[]): number {
    return picks.reduce(
      (tallest, { sort, way }) => Math.max(tallest, this.sorts[sort]!.ways[way]!.height),
      0,
    );
  }

  private areaOf(picks: readonly Pick[]): number {
    return picks.reduce((sum, { sort, count }) => sum + this.sorts[sort]!.area * count, 0);
  }

  /** How much of a strip no cut covers, as a share. */
  private wasteOf({ height, picks }: Filled): number {
    return 1 - this.areaOf(picks) / (height * this.sorted.capacity);
  }

  private improve(strips: readonly Filled[], until: number): readonly Filled[] {
    let now = strips;
    let best = now;
    let shortest = lengthOf(now);
    const counts = this.sorts.map(() => 0);
    const patience = shortest * PATIENCE;
    while (this.spent() < until && now.length > 1) {
      this.tries++;
      const taken = this.someStrips(now);
      counts.fill(0);
      const old = taken.map((i) => now[i]!);
      for (const { picks } of old) for (const { sort, count } of picks) counts[sort]! += count;
      const allowance = patience * this.random() ** 4;
      const anew = this.fillAll(
        counts,
        this.someTaste(),
        lengthOf(old) + allowance + 2 * ROUNDING,
        this.random() < 0.7 ? taken.length - 2 : Number.POSITIVE_INFINITY,
      );
      if (!anew) continue;
      const out = new Set(taken);
      now = [...now.filter((_, i) => !out.has(i)), ...anew];
      const length = lengthOf(now);
      if (length < shortest - ROUNDING) {
        shortest = length;
        best = now;
      } else if (length > shortest + patience) now = best;
    }
    return best;
  }

  /** A few strips to be filled anew: a wasteful one, and others. */
  private someStrips(strips: readonly Filled[]): readonly number[] {
    const many = Math.min(strips.length, 2 + Math.floor(3 * this.random()));
    const taken = new Set<number>();
    const candidates = Array.from({ length: 3 }, () => Math.floor(this.random() * strips.length));
    taken.add(candidates.reduce((a, b) => (this.wasteOf(strips[b]!) > this.wasteOf(strips[a]!) ? b : a)));
    while (taken.size < many) taken.add(Math.floor(this.random() * strips.length));
    return [...taken];
  }
}

const lengthOf = (strips: readonly Filled[]): number => strips.reduce((sum, { height }) => sum + height, 0);

function countsOf(picks: readonly Pick[]): Map<number, number> {
  const counts = new Map<number, number>();
  for (const { sort, count } of picks) counts.set(sort, (counts.get(sort) ?? 0) + count);
  return counts;
}
