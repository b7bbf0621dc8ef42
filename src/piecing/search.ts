import { type Parting, partingsOf } from './partings.ts';
import type { Pattern } from './pattern.ts';
import { knotOf } from './peel.ts';
import { keyOf, type Region } from './region.ts';
import { setInSplits } from './set-in.ts';

/** How a region is put together: one foundation, or two units and the join between them. */
export type Assembly =
  | { readonly kind: 'foundation'; readonly region: Region }
  | {
      readonly kind: 'straight' | 'set-in';
      readonly region: Region;
      readonly left: Assembly;
      readonly right: Assembly;
    };

/**
 * What an assembly costs, most weighty first: set-in joins, pinned roles not obeyed, foundations, match points,
 * length of all joins in 1/64 in (whole, so that rounding never decides).
 */
export type Cost = readonly [
  setIn: number,
  refused: number,
  foundations: number,
  matches: number,
  length: number,
];

export interface SearchResult {
  readonly assembly: Assembly;
  readonly cost: Cost;
  /** True when no cheaper assembly exists; false when the budget ran out or a join is set in. */
  readonly isProven: boolean;
  /** Regions that neither sew on one foundation nor part along a straight seam. */
  readonly rings: readonly Region[];
}

interface Solved {
  readonly cost: Cost;
  readonly assembly: Assembly;
}

/**
 * The cheapest way to put a whole pattern together:
 * `best(region) = one foundation if it peels, else the least over its partings of best(left) + best(right)`,
 * memoised on the set of cells, by branch and bound. Exact while the budget lasts; after that each region takes
 * its most promising parting. `budget` counts regions looked into.
 */
export function cheapestAssembly(pattern: Pattern, budget: number): SearchResult {
  const memo = new Map<string, Solved>();
  const bounds = new Map<string, Cost>();
  const rings: Region[] = [];
  let spent = 0;
  let isProven = true;

  const whole = new Uint8Array(pattern.cells).fill(1);
  const result = solve(whole, 0);
  return { ...result, isProven: isProven && result.cost[0] === 0, rings };

  /** A cost no assembly of the region undercuts; exact where the region sews on one foundation. */
  function bound(region: Region, key: string): Cost {
    const known = memo.get(key)?.cost ?? bounds.get(key);
    if (known) return known;
    const peels = knotOf(pattern, region).length === 1;
    const refused = peels ? joinsInside(pattern, region) : 0;
    const cost: Cost = peels && refused === 0 ? [0, 0, 1, 0, 0] : peels ? [0, 0, 1, 0, 1] : [0, 0, 2, 0, 1];
    bounds.set(key, cost);
    return cost;
  }

  function solve(region: Region, depth: number): Solved {
    const key = keyOf(region);
    const known = memo.get(key);
    if (known) return known;
    spent++;
    let best: Solved | null = null;
    if (knotOf(pattern, region).length === 1) {
      const refused = joinsInside(pattern, region);
      best = { cost: [0, refused, 1, 0, 0], assembly: { kind: 'foundation', region } };
      if (refused === 0) return remember(key, best);
    }
    const choices = partingsOf(pattern, region)
      .map((parting) => {
        const left = bound(parting.left, keyOf(parting.left));
        const right = bound(parting.right, keyOf(parting.right));
        return { parting, least: add(add(left, right), ownCost(parting)) };
      })
      .sort((a, b) => compare(a.least, b.least));
    for (const { parting, least } of choices) {
      if (best && compare(least, best.cost) >= 0) break;
      if (best && spent >= budget) {
        isProven = false;
        break;
      }
      const left = solve(parting.left, depth + 1);
      // With the left half known exactly, many a parting is out before its right half is looked into.
      const sofar = add(add(left.cost, bound(parting.right, keyOf(parting.right))), ownCost(parting));
      if (best && compare(sofar, best.cost) >= 0) continue;
      const right = solve(parting.right, depth + 1);
      const cost = add(add(left.cost, right.cost), ownCost(parting));
      if (best && compare(cost, best.cost) >= 0) continue;
      best = {
        cost,
        assembly: { kind: 'straight', region, left: left.assembly, right: right.assembly },
      };
    }
    return remember(key, best ?? solveRing(region, depth));
  }

  function solveRing(region: Region, depth: number): Solved {
    rings.push(region);
    let best: Solved | null = null;
    for (const split of setInSplits(pattern, region, depth === 0 ? 8 : 2)) {
      if (best && spent >= budget) break;
      const left = solve(split.left, depth + 2);
      const right = solve(split.right, depth + 2);
      const cost = add(add(left.cost, right.cost), [1, 0, 0, split.corners, split.length]);
      if (best && compare(cost, best.cost) >= 0) continue;
      best = { cost, assembly: { kind: 'set-in', region, left: left.assembly, right: right.assembly } };
    }
    if (!best) throw new Error('a ring of patches has no way in');
    return best;
  }

  function remember(key: string, solved: Solved): Solved {
    memo.set(key, solved);
    return solved;
  }
}

const ownCost = (parting: Parting): Cost => [
  0,
  parting.refused,
  0,
  parting.matches,
  Math.round(parting.length * 64),
];

function add(a: Cost, b: Cost): Cost {
  return [a[0] + b[0], a[1] + b[1], a[2] + b[2], a[3] + b[3], a[4] + b[4]];
}

export function compare(a: Cost, b: Cost): number {
  return a[0] - b[0] || a[1] - b[1] || a[2] - b[2] || a[3] - b[3] || a[4] - b[4];
}

/** Cuts pinned to part two foundations that lie inside the region. */
function joinsInside(pattern: Pattern, region: Region): number {
  const { role, division } = pattern;
  const cuts = new Set<number>();
  for (let e = 0; e < role.length; e++) {
    if (role[e] !== 1) continue;
    const a = division.face[2 * e]!;
    const b = division.face[2 * e + 1]!;
    if (a >= 0 && b >= 0 && region[a] === 1 && region[b] === 1) cuts.add(division.line[e]!);
  }
  return cuts.size;
}
