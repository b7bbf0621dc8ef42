import type { Assembly, Cost, Solved, Wish } from './assembly.ts';
import { cornerCount, hasPair, neighboursAmong, PAIRS_A_WORD, wordsOf } from './pairs.ts';
import type { Pattern } from './pattern.ts';
import { contactOf, knotOf, sewsOnOneFoundation } from './peel.ts';
import { joinsInside } from './pins.ts';
import { cellsOf, maskOf, type Region } from './region.ts';
import { type Seam, seamBetween } from './seam.ts';

/** A block of so many cells is split in every way whatever it takes: a few milliseconds. */
export const ALWAYS_SPLIT = 12;

/** Of regions of up to so many cells it is tried: where each has few neighbours there are not many ways. */
export const MOST_SPLIT = 16;

/** Splits looked at for all regions of one plan together: crowded rings, each small, would take seconds otherwise. */
export const MOST_LOOKS = 60_000;

/** What is left of them; it is used up as regions are split. */
export interface Looks {
  left: number;
}

/** More than any set of `MOST_SPLIT` cells is as a number. */
const SETS = 2 ** MOST_SPLIT;

export interface SplitEveryWay extends Solved {
  /** Does no assembly of a block of up to `ALWAYS_SPLIT` cells cost less, whatever is straight as far as a printed line shows? */
  readonly isExact: boolean;
}

/** One way to make a set of cells: one foundation (`split` 0), sewn on from some (`isSewnOn`), or from two sets. */
interface Made {
  readonly weight: Weight;
  readonly split: number;
  readonly isSewnOn: boolean;
}

/** A cost in two numbers that compare one after the other: all up to the foundations, then matches and length. */
type Weight = readonly [first: number, second: number];

const CORNERS = 2 ** 36;
const REFUSED = 2 ** 26;
const DISLIKED = 2 ** 10;
const MATCHES = 2 ** 30;

/**
 * The cheapest way to put a small region together over every sequence of parts: any connected set of cells may be
 * parted into any two, along a seam that is straight or turns corners. No other assembly costs less. Null where there
 * are more ways than can be looked through; never for a block of up to `ALWAYS_SPLIT` cells.
 *
 * Cost: O(3^n) splits of n cells at worst; those not connected are never met, and a split is gone into only while
 * what it must cost is no more than the best so far.
 */
export function everySplit(
  pattern: Pattern,
  region: Region,
  wish: Wish,
  allowed: Looks,
): SplitEveryWay | null {
  const cells = cellsOf(region);
  const n = cells.length;
  if (n > MOST_SPLIT) return null;
  // As many sets as it has, at the least, are gone through: where that is not allowed nothing is begun.
  if (pattern.cells > ALWAYS_SPLIT && allowed.left < 2 ** n / 4) return null;
  const mostLooks = pattern.cells <= ALWAYS_SPLIT ? Number.POSITIVE_INFINITY : allowed.left;
  const all = 2 ** n - 1;
  const { near, pairs } = neighboursAmong(pattern, cells);
  const words = wordsOf(n, pairs);
  const cornersAlong = cornerCount(pattern, pairs);
  const mayRefuse = pattern.role.includes(2);
  const isHazy = pattern.isBlurred;
  const holds = new Int8Array(all + 1);
  const peels = new Int8Array(all + 1);
  const turns = new Map<number, number>();
  const seams = new Map<number, Seam>();
  const made = new Map<number, Made>();
  const mayBeExact = isHazy && pattern.cells <= ALWAYS_SPLIT;
  const comesOff = new Int8Array(mayBeExact ? all + 1 : 0);
  let isExact = true;
  let looks = 0;
  const best = bestOf(all);
  allowed.left -= looks;
  return best ? { cost: costOf(best.weight), assembly: assemblyOf(all, best), isExact } : null;

  function bestOf(set: number): Made | null {
    const known = made.get(set);
    if (known) return known;
    let best: Made | null = doesPeel(set)
      ? { weight: [1 + REFUSED * joinsInside(pattern, regionOf(set)), 0], split: 0, isSewnOn: false }
      : null;
    if (best === null || best.weight[0] > 1) {
      if (best === null && wish.allowsUnitFirst) best = sewnOn(set);
      const splits = splitsOf(set);
      if (looks > mostLooks) return null;
      for (const split of splits) {
        if (++looks > mostLooks) return null;
        const part = split % SETS;
        const rest = set & ~part;
        const own = Math.floor(split / SETS) * REFUSED;
        if (best && own + 2 > best.weight[0]) break;
        if (best && own + leastOf(part) + leastOf(rest) > best.weight[0]) continue;
        const left = bestOf(part);
        if (!left) return null;
        if (best && own + left.weight[0] + leastOf(rest) > best.weight[0]) continue;
        const right = bestOf(rest);
        if (!right) return null;
        if (best && own + left.weight[0] + right.weight[0] > best.weight[0]) continue;
        const [disliked, matches, length] = meetingsOf(part, rest);
        const weight: Weight = [
          own + disliked * DISLIKED + left.weight[0] + right.weight[0],
          matches * MATCHES + length + left.weight[1] + right.weight[1],
        ];
        if (!best || isLess(weight, best.weight)) best = { weight, split: part, isSewnOn: false };
      }
    }
    made.set(set, best!);
    return best;
  }

  /** What the first number of a set comes to at least. */
  function leastOf(set: number): number {
    return made.get(set)?.weight[0] ?? (doesPeel(set) ? 1 : 2);
  }

  function doesPeel(set: number): boolean {
    if (peels[set] === 0) {
      peels[set] = sewsOnOneFoundation(pattern, regionOf(set)) ? 1 : -1;
      if (mayBeExact && isExact && peels[set] === -1 && comesOffInSomeOrder(set)) isExact = false;
    }
    return peels[set] === 1;
  }

  /** Where lines all but meet, a cell taken off may hold another, so that the way cells come off matters. */
  function comesOffInSomeOrder(set: number): boolean {
    if ((set & (set - 1)) === 0) return true;
    if (comesOff[set] === 0) {
      const region = regionOf(set);
      comesOff[set] = -1;
      for (let left = set; left !== 0 && comesOff[set] === -1; left &= left - 1) {
        const one = left & -left;
        const rest = set & ~one;
        if (!doesHold(rest) || !comesOffInSomeOrder(rest)) continue;
        if (contactOf(pattern, region, cells[31 - Math.clz32(one)]!).kind === 'straight') comesOff[set] = 1;
      }
    }
    return comesOff[set] === 1;
  }

  function sewnOn(set: number): Made | null {
    const whole = regionOf(set);
    const base = maskOf(pattern, knotOf(pattern, whole));
    const part = cells.reduce((bits, c, i) => (base[c] === 1 ? bits | (1 << i) : bits), 0);
    // A pinned join must part two foundations; whether it does here only the rest of the plan could tell.
    if (part === set || joinsInside(pattern, whole) > joinsInside(pattern, base)) return null;
    const first = bestOf(part);
    return first && { weight: [first.weight[0] + 1, first.weight[1]], split: part, isSewnOn: true };
  }

  /**
   * Every way to part a set in two that hold together, as the set of one half plus `SETS` times what its seam turns and
   * refuses; those that turn least come first.
   */
  function splitsOf(set: number): Float64Array {
    const splits: number[] = [];
    const lowest = set & -set;
    grow(lowest, near[31 - Math.clz32(lowest)]!, 0);
    return Float64Array.from(splits).sort();

    /** All connected sets that hold `part` and none of `past`, each once. */
    function grow(part: number, about: number, past: number): void {
      const rest = set & ~part;
      if (rest === 0 || ++looks > mostLooks) return;
      if (doesHold(rest)) splits.push(part + turnsOf(part, rest) * SETS);
      let without = past;
      for (let open = about & rest & ~past; open !== 0; open &= open - 1) {
        const one = open & -open;
        grow(part | one, about | near[31 - Math.clz32(one)]!, without);
        without |= one;
      }
    }
  }

  function doesHold(set: number): boolean {
    if (holds[set] === 0) {
      let reached = set & -set;
      for (let edge = reached; edge !== 0; ) {
        let next = 0;
        for (let left = edge; left !== 0; left &= left - 1) next |= near[31 - Math.clz32(left & -left)]!;
        edge = next & set & ~reached;
        reached |= edge;
      }
      holds[set] = reached === set ? 1 : -1;
    }
    return holds[set] === 1;
  }

  /** The pairs of neighbours a seam runs between, as one number. */
  function keyOf(part: number, rest: number): number {
    const both = part | rest;
    const first = words[2 * both]! - words[2 * part]! - words[2 * rest]!;
    const second = words[2 * both + 1]! - words[2 * part + 1]! - words[2 * rest + 1]!;
    return first * 2 ** PAIRS_A_WORD + second;
  }

  /** Corners a seam turns, weighed against pins it refuses as in a cost. */
  function turnsOf(part: number, rest: number): number {
    const key = keyOf(part, rest);
    let known = turns.get(key);
    if (known === undefined) {
      known =
        cornersAlong(Math.floor(key / 2 ** PAIRS_A_WORD), key % 2 ** PAIRS_A_WORD) * (CORNERS / REFUSED);
      if (mayRefuse || (known > 0 && isHazy)) {
        const { corners, refused } = seamOf(part, rest);
        known = corners * (CORNERS / REFUSED) + refused;
      }
      turns.set(key, known);
    }
    return known;
  }

  function seamOf(part: number, rest: number): Seam {
    const key = keyOf(part, rest);
    const known = seams.get(key);
    if (known) return known;
    const edges = pairs.flatMap(({ i, edges }, p) => {
      if (!hasPair(Math.floor(key / 2 ** PAIRS_A_WORD), key % 2 ** PAIRS_A_WORD, p)) return [];
      return ((part >> i) & 1) === 1 ? edges : edges.map((h) => h ^ 1);
    });
    const seam = seamBetween(pattern, edges);
    seams.set(key, seam);
    return seam;
  }

  function meetingsOf(part: number, rest: number): [disliked: number, matches: number, length: number] {
    const seam = seamOf(part, rest);
    const parting = seam.parting(regionOf(part), regionOf(rest));
    const disliked = seam.corners === 0 ? (wish.dislike?.(seam.chord(), parting) ?? 0) : 0;
    return [disliked, parting.matches, seam.length];
  }

  function regionOf(set: number): Region {
    const region = new Uint8Array(pattern.cells);
    for (let left = set; left !== 0; left &= left - 1) region[cells[31 - Math.clz32(left & -left)]!] = 1;
    return region;
  }

  function assemblyOf(set: number, { split, isSewnOn }: Made): Assembly {
    const region = regionOf(set);
    if (split === 0) return { kind: 'foundation', region };
    const first = assemblyOf(split, made.get(split)!);
    if (isSewnOn) return { kind: 'sewn-on', region, base: first };
    const rest = set & ~split;
    return {
      kind: turnsOf(split, rest) < CORNERS / REFUSED ? 'straight' : 'set-in',
      region,
      left: first,
      right: assemblyOf(rest, made.get(rest)!),
    };
  }
}

const isLess = (a: Weight, b: Weight): boolean => a[0] < b[0] || (a[0] === b[0] && a[1] < b[1]);

function costOf([first, second]: Weight): Cost {
  return [
    Math.floor(first / CORNERS),
    Math.floor(first / REFUSED) % (CORNERS / REFUSED),
    Math.floor(first / DISLIKED) % (REFUSED / DISLIKED),
    first % DISLIKED,
    Math.floor(second / MATCHES),
    second % MATCHES,
  ];
}
