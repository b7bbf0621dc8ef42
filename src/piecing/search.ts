import { type Assembly, type Cost, costInWords, type Solved, type Wish } from './assembly.ts';
import { type Binding, bindingOf, bindingUnder, forcedEdges, settledBy } from './binding.ts';
import { type Clashes, clashesOf, crossedVertices } from './clashes.ts';
import { ALWAYS_SPLIT, everySplit, type Looks, MOST_LOOKS, type SplitEveryWay } from './every-split.ts';
import { cornersOf, type OpenedRing, openingsOf, ringsWithin } from './openings.ts';
import { type Chord, chordLength, chordsOf, isUncrossed, type Parting, partAlong } from './partings.ts';
import type { Pattern } from './pattern.ts';
import { knotOf, sewsOnOneFoundation } from './peel.ts';
import { joinsInside } from './pins.ts';
import { keyOf, maskOf, type Region, wholeOf, without } from './region.ts';
import { ringsOf } from './rings.ts';

export interface SearchResult {
  readonly assembly: Assembly;
  readonly cost: Cost;
  /** True when no cheaper assembly exists; false when the budget ran out, a join is set in, or a large drawing is blurred. */
  readonly isProven: boolean;
  /** True when the budget left nothing out: a larger one finds the same. */
  readonly isComplete: boolean;
  /** Groups of cells that hold each other, so that no straight seam lets them in; one for each set-in join. */
  readonly rings: readonly Region[];
  /** The clashes of the pattern, as they were counted. */
  readonly clashes: Clashes;
}

/** A block of so few cells is also opened as it is, before straight seams part it: that may save a paper. */
const OPENED_WHOLE = 24;

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
 * `best(region) = one foundation if it peels, else the least over its partings of best(left) + best(right)`, and on
 * request also `1 + best(what is left after peeling)`; memoised on the set of cells, by branch and bound. Exact in
 * all but the length while the budget lasts; after that each region takes its most promising parting. Among equals
 * the one with the shorter joins is preferred, without looking through all of them. `budget` counts regions looked into.
 * `clashes` and `held`, the rings of `whole`, may be given where they are known, and `whole` where it is a part.
 */
export function cheapestAssembly(
  pattern: Pattern,
  budget: number,
  wish: Wish = {},
  clashes: Clashes = clashesOf(pattern),
  held: readonly Region[] | null = null,
  whole: Region = wholeOf(pattern),
): SearchResult {
  const memo = new Map<string, Solved>();
  const bounds = new Map<string, Bound>();
  const looks: Looks = { left: MOST_LOOKS };
  const splits = new Map<string, SplitEveryWay | null>();
  const isCrossing = crossedVertices(pattern);
  // What clashes bind is told by lines; it holds only where lines can be told apart.
  const isHazy = pattern.isBlurred;
  let spent = 0;
  let isComplete = true;

  const openings = openingsOf(pattern, (ring) => {
    const split = splitEveryWay(ring);
    return split ? costInWords(split.cost).corners : null;
  });
  // Most drawings hold no ring, and to look for one is most of the way to taking the drawing apart.
  let isSought = held === null && !isHazy;
  const straight = isSought ? solvedStraight() : null;
  const rings = straight ? [] : openings.into(held ?? ringsOf(pattern, whole));
  const { cost, assembly } = straight ?? solve(whole, rings);
  return {
    cost,
    assembly,
    isProven: isComplete && cost[0] === 0 && (assembly.kind === 'foundation' || !isHazy || isExact()),
    isComplete,
    rings: heldIn(assembly),
    clashes,
  };

  /** Were all ways to part the whole looked through, each seam measured? Then nothing hangs on telling lines apart. */
  function isExact(): boolean {
    return whole.length <= ALWAYS_SPLIT && splitEveryWay(whole)?.isExact === true;
  }

  /** What comes of it when straight seams suffice; null, and all forgotten, where a ring is met. */
  function solvedStraight(): Solved | null {
    try {
      return solve(whole, []);
    } catch (met) {
      if (!(met instanceof RingMet)) throw met;
      memo.clear();
      bounds.clear();
      spent = 0;
      isComplete = true;
      return null;
    } finally {
      isSought = false;
    }
  }

  function splitEveryWay(region: Region): SplitEveryWay | null {
    const key = keyOf(region);
    const known = splits.get(key);
    if (known !== undefined) return known;
    const made = everySplit(pattern, region, wish, looks);
    splits.set(key, made);
    return made;
  }

  function boundOf(region: Region, key: string, rings: readonly OpenedRing[], within?: Binding): Bound {
    return bounds.get(key) ?? rememberBound(region, key, bindingOf(pattern, clashes, region, within), rings);
  }

  function rememberBound(region: Region, key: string, binding: Binding, rings: readonly OpenedRing[]): Bound {
    const peels = (isHazy || binding.joins === 0) && sewsOnOneFoundation(pattern, region);
    const refused = peels ? joinsInside(pattern, region) : 0;
    const joins = peels ? 0 : isHazy ? 1 : Math.max(1, binding.joins);
    const cost: Cost = [cornersOf(rings), 0, 0, 1 + joins, isHazy ? 0 : binding.matches, 0];
    const bound: Bound = { cost, binding, peels, refused };
    bounds.set(key, bound);
    return bound;
  }

  function leastOf(region: Region, rings: readonly OpenedRing[], within: Binding): Cost {
    const key = keyOf(region);
    return memo.get(key)?.cost ?? boundOf(region, key, ringsWithin(rings, region), within).cost;
  }

  function solve(region: Region, rings: readonly OpenedRing[]): Solved {
    const key = keyOf(region);
    const known = memo.get(key);
    if (known) return known;
    if (rings.length > 0 || isHazy) {
      const split = splitEveryWay(region);
      if (split) return remember(key, split);
    }
    const given = wish.opened?.get(key);
    if (given) return remember(key, solveGiven(region, given));
    spent++;
    const { peels, refused, binding, cost: floor } = boundOf(region, key, rings);
    let best: Solved | null = peels
      ? { cost: [0, refused, 0, 1, 0, 0], assembly: { kind: 'foundation', region } }
      : null;
    if (best && refused === 0) return remember(key, best);
    if (wish.allowsUnitFirst && !peels) best = solveSewnOn(region, rings);
    const isDone = best !== null && isNoBetter(floor, best.cost);
    const chords = isDone ? [] : chordsOf(pattern, region);
    const kept = isDone ? null : partingThatKeeps(region, chords, binding, rings);
    if (kept) {
      const left = solve(kept.left, ringsWithin(rings, kept.left));
      const right = solve(kept.right, ringsWithin(rings, kept.right));
      const cost = add(left.cost, right.cost, ownCost(kept, 0));
      if (!best || compare(cost, best.cost) < 0)
        best = { cost, assembly: { kind: 'straight', region, left: left.assembly, right: right.assembly } };
    }
    const isSettled = best !== null && isNoBetter(floor, best.cost);
    for (const { parting, own, least } of isSettled ? [] : choicesOf(region, chords, binding, rings)) {
      if (best && isNoBetter(floor, best.cost)) break;
      if (best && isNoBetter(least, best.cost)) continue;
      if (best && spent >= budget) {
        isComplete = false;
        break;
      }
      const left = solve(parting.left, ringsWithin(rings, parting.left));
      // With the left half known exactly, many a parting is out before its right half is looked into.
      if (best && isNoBetter(add(left.cost, leastOf(parting.right, rings, binding), own), best.cost))
        continue;
      const right = solve(parting.right, ringsWithin(rings, parting.right));
      const cost = add(left.cost, right.cost, own);
      if (best && compare(cost, best.cost) >= 0) continue;
      best = { cost, assembly: { kind: 'straight', region, left: left.assembly, right: right.assembly } };
    }
    if (!best && isSought) throw new RingMet();
    if (!best || (region === whole && rings.length > 0 && pattern.cells <= OPENED_WHOLE)) {
      const opened = solveOpened(region);
      if (!best || compare(opened.cost, best.cost) < 0) best = opened;
    }
    return remember(key, best);
  }

  /**
   * The shortest parting that costs nothing beyond what the region must cost: along a line that passes through the
   * clashes on its way where the joins are fewest, neither refused nor disliked. What bounds its two units is then
   * known as well. Null where there is none, as where such lines hold each other up.
   */
  function partingThatKeeps(
    region: Region,
    chords: readonly Chord[],
    binding: Binding,
    rings: readonly OpenedRing[],
  ): Parting | null {
    if (!binding.isReached || binding.joins === 0) return null;
    const keeping = chords
      .map((chord) => ({ chord, settled: settledBy(pattern, clashes, binding.passing, chord) }))
      .filter(({ settled }) => settled > 0)
      .map((choice) => ({ ...choice, length: chordLength(pattern, choice.chord) }))
      .sort((a, b) => a.length - b.length);
    for (const { chord, settled } of keeping) {
      const parting = partAlong(pattern, region, chord);
      if (!parting || parting.refused > 0 || (wish.dislike?.(chord, parting) ?? 0) > 0) continue;
      const left = bindingUnder(pattern, clashes, parting.left, binding);
      const right = bindingUnder(pattern, clashes, parting.right, binding);
      // What the units must cost is known only when each clash is in one of them or done with.
      if (left.joins + right.joins + 1 !== binding.joins) continue;
      if (left.binds.length + right.binds.length + settled !== binding.binds.length) continue;
      for (const [unit, bound] of [
        [parting.left, left],
        [parting.right, right],
      ] as const) {
        const key = keyOf(unit);
        if (!bounds.has(key)) rememberBound(unit, key, bound, ringsWithin(rings, unit));
      }
      return parting;
    }
    return null;
  }

  /** The partings of a region, the most promising first. */
  function choicesOf(
    region: Region,
    chords: readonly Chord[],
    binding: Binding,
    rings: readonly OpenedRing[],
  ): { parting: Parting; own: Cost; least: Cost }[] {
    const choice = (chord: Chord, parting: Parting) => {
      const own = ownCost(parting, wish.dislike?.(chord, parting) ?? 0);
      const left = leastOf(parting.left, rings, binding);
      return { parting, own, least: add(left, leastOf(parting.right, rings, binding), own) };
    };
    // A stretch that must lie on a join, on a chord that none crosses, can be parted first at no loss:
    // every other parting lies on one side of it and stays as it is.
    if (!wish.allowsUnitFirst) {
      const forced = forcedEdges(clashes, binding);
      for (const chord of chords) {
        if (!chord.edges.some((h) => forced.has(h >> 1)) || !isUncrossed(pattern, chord, isCrossing))
          continue;
        const parting = partAlong(pattern, region, chord);
        if (parting && parting.refused === 0) return [choice(chord, parting)];
      }
    }
    return chords
      .flatMap((chord) => {
        const parting = partAlong(pattern, region, chord);
        return parting ? [choice(chord, parting)] : [];
      })
      .sort((a, b) => compare(a.least, b.least));
  }

  function solveSewnOn(region: Region, rings: readonly OpenedRing[]): Solved | null {
    const base = maskOf(pattern, knotOf(pattern, region));
    const added = without(region, base);
    // A pinned join must part two foundations; whether it does here only the rest of the plan could tell.
    if (!added.includes(1) || joinsInside(pattern, region) > joinsInside(pattern, base)) return null;
    const solved = solve(base, ringsWithin(rings, base));
    return {
      cost: add(solved.cost, [0, 0, 0, 1, 0, 0]),
      assembly: { kind: 'sewn-on', region, base: solved.assembly },
    };
  }

  /** A ring opened as it is wished, the seam between its units sewn in two goes. */
  function solveGiven(region: Region, { left, right }: { left: Region; right: Region }): Solved {
    const [one, other] = [solve(left, []), solve(right, [])];
    return {
      cost: add(one.cost, other.cost),
      assembly: { kind: 'partial', region, left: one.assembly, right: other.assembly },
    };
  }

  /** A region opened along a set-in seam. */
  function solveOpened(region: Region): Solved {
    let best: Solved | null = null;
    for (const { split, inLeft, inRight } of openings.waysInto(region)) {
      if (best && spent >= budget) {
        isComplete = false;
        break;
      }
      const left = solve(split.left, inLeft);
      const right = solve(split.right, inRight);
      const cost = add(left.cost, right.cost, [
        split.corners,
        split.refused,
        0,
        0,
        split.matches,
        split.length,
      ]);
      if (best && compare(cost, best.cost) >= 0) continue;
      const kind = split.corners === 0 ? 'straight' : 'set-in';
      best = { cost, assembly: { kind, region, left: left.assembly, right: right.assembly } };
    }
    if (!best) throw new Error('a ring of patches has no way in');
    return best;
  }

  /** The cells that hold each other wherever the assembly is opened along a set-in seam. */
  function heldIn(node: Assembly): Region[] {
    if (node.kind === 'foundation') return [];
    if (node.kind === 'sewn-on') return heldIn(node.base);
    const inside = [...heldIn(node.left), ...heldIn(node.right)];
    return node.kind === 'set-in' ? [maskOf(pattern, knotOf(pattern, node.region)), ...inside] : inside;
  }

  function remember(key: string, solved: Solved): Solved {
    memo.set(key, solved);
    return solved;
  }
}

/** Met on the way where no ring was looked for: patches that no straight seam lets in. */
class RingMet extends Error {}

/** What a parting costs by itself. */
const ownCost = ({ refused, matches, length }: Parting, disliked: number): Cost => [
  0,
  refused,
  disliked,
  0,
  matches,
  Math.round(length * 64),
];

function add(...costs: readonly Cost[]): Cost {
  const sum: [number, number, number, number, number, number] = [0, 0, 0, 0, 0, 0];
  for (const cost of costs) for (let k = 0; k < 6; k++) sum[k]! += cost[k]!;
  return sum;
}

function compareFirst(a: Cost, b: Cost, places: number): number {
  for (let k = 0; k < places; k++) if (a[k] !== b[k]) return a[k]! - b[k]!;
  return 0;
}

const compare = (a: Cost, b: Cost): number => compareFirst(a, b, 6);

/** No better in all that is promised; shorter joins alone are not worth another search. */
const isNoBetter = (a: Cost, b: Cost): boolean => compareFirst(a, b, 5) >= 0;
