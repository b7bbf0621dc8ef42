import { type Binding, bindingOf, clashesOf, crossedVertices } from './clashes.ts';
import { chordsOf, isUncrossed, type Parting, partAlong } from './partings.ts';
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

interface Bound {
  /** No assembly of the region undercuts this. */
  readonly cost: Cost;
  readonly binding: Binding;
  readonly peels: boolean;
  /** Pinned joins inside it, if it is made one foundation. */
  readonly refused: number;
}

/**
 * The cheapest way to put a whole pattern together:
 * `best(region) = one foundation if it peels, else the least over its partings of best(left) + best(right)`,
 * memoised on the set of cells, by branch and bound. Exact in set-in joins, pins, foundations and match points
 * while the budget lasts; after that each region takes its most promising parting. Among equals the one with the
 * shorter joins is preferred, without looking through all of them. `budget` counts regions looked into.
 */
export function cheapestAssembly(pattern: Pattern, budget: number): SearchResult {
  const memo = new Map<string, Solved>();
  const bounds = new Map<string, Bound>();
  const rings: Region[] = [];
  const clashes = clashesOf(pattern);
  const isCrossing = crossedVertices(pattern);
  let spent = 0;
  let isProven = true;

  const whole = new Uint8Array(pattern.cells).fill(1);
  const result = solve(whole, 0);
  return { ...result, isProven: isProven && result.cost[0] === 0, rings };

  function boundOf(region: Region, key: string): Bound {
    const known = bounds.get(key);
    if (known) return known;
    const binding = bindingOf(pattern, clashes, region);
    const peels = binding.joins === 0 && knotOf(pattern, region).length === 1;
    const refused = peels ? joinsInside(pattern, region) : 0;
    const joins = peels ? 0 : Math.max(1, binding.joins);
    const bound: Bound = { cost: [0, 0, 1 + joins, binding.matches, 0], binding, peels, refused };
    bounds.set(key, bound);
    return bound;
  }

  function leastOf(region: Region): Cost {
    const key = keyOf(region);
    return memo.get(key)?.cost ?? boundOf(region, key).cost;
  }

  function solve(region: Region, depth: number): Solved {
    const key = keyOf(region);
    const known = memo.get(key);
    if (known) return known;
    spent++;
    const { peels, refused, binding, cost: floor } = boundOf(region, key);
    let best: Solved | null = peels
      ? { cost: [0, refused, 1, 0, 0], assembly: { kind: 'foundation', region } }
      : null;
    if (peels && refused === 0) return remember(key, best!);
    for (const { parting, least } of choicesOf(region, binding.isForced)) {
      if (best && (isNoBetter(least, best.cost) || isNoBetter(floor, best.cost))) break;
      if (best && spent >= budget) {
        isProven = false;
        break;
      }
      const left = solve(parting.left, depth + 1);
      // With the left half known exactly, many a parting is out before its right half is looked into.
      const sofar = add(add(left.cost, leastOf(parting.right)), ownCost(parting));
      if (best && isNoBetter(sofar, best.cost)) continue;
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

  /** The partings of a region, the most promising first. */
  function choicesOf(region: Region, isForced: Uint8Array): { parting: Parting; least: Cost }[] {
    const chords = chordsOf(pattern, region);
    // A line that must be a join, runs right across and is crossed by none can be parted first at no loss:
    // every other parting lies on one side of it and stays as it is.
    for (const chord of chords) {
      if (isForced[chord.line] !== 1 || !isUncrossed(pattern, chord, isCrossing)) continue;
      const parting = partAlong(pattern, region, chord);
      if (parting && parting.refused === 0) return [{ parting, least: leastAlong(parting) }];
    }
    return chords
      .flatMap((chord) => partAlong(pattern, region, chord) ?? [])
      .map((parting) => ({ parting, least: leastAlong(parting) }))
      .sort((a, b) => compare(a.least, b.least));
  }

  function leastAlong(parting: Parting): Cost {
    return add(add(leastOf(parting.left), leastOf(parting.right)), ownCost(parting));
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

/** No better in all that is promised; shorter joins alone are not worth another search. */
const isNoBetter = (a: Cost, b: Cost): boolean =>
  (a[0] - b[0] || a[1] - b[1] || a[2] - b[2] || a[3] - b[3]) >= 0;

function compare(a: Cost, b: Cost): number {
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
