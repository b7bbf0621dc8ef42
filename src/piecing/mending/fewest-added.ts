import { chordsOf } from './chords.ts';
import { type Hold, leastOf, mostOf, type Opening, sum } from './hold.ts';
import { leastAdded } from './least-added.ts';
import { type Added, partAlong } from './part-along.ts';
import type { Plane } from './plane.ts';
import { keyOf, type Tract } from './tract.ts';
import { waysInto } from './ways.ts';

export interface FewestAdded {
  /** Stretches to add, for each of several ways that add the same number of pieces. */
  readonly ways: readonly (readonly Added[])[];
  readonly count: number;
  /** No way along the lines tried adds fewer. */
  readonly isProven: boolean;
}

/** A hold of more pieces than this is not cut through any two of its corners: there are too many pairs. */
const PIECES_FOR_PAIRS = 26;

/** Openings that a first look goes into, one fewer with each step down. */
const LOOKED_INTO = 3;

/**
 * The fewest pieces to add so that straight seams sew some tracts, each of which holds: `added(hold) = the least over
 * chords of the pieces they part and added(what holds in the halves)`, along drawn lines and through two corners;
 * memoised by what holds, deepened by one piece at a time. `budget` counts chords parted along; `wanted` is the number of ways
 * asked for. A generator: it yields now and then, and may be dropped.
 */
export function* fewestAdded(
  plane: Plane,
  tracts: readonly Tract[],
  budget: number,
  wanted: number,
): Generator<null, FewestAdded, void> {
  const known = new Map<string, Hold>();
  let spent = 0;
  const isSpent = (): boolean => spent >= budget;
  const holds = tracts.map(holdFor);
  for (const hold of holds) yield* lookInto(hold, LOOKED_INTO);
  // From above: each step betters what is known, or proves it.
  for (const hold of holds)
    while (hold.least < hold.most && !isSpent())
      yield* opens(hold, Number.isFinite(hold.most) ? hold.most - 1 : hold.least);
  const isProven = holds.every(({ least, most }) => least >= most);
  // Of what is proven all ways of the same number are opened, that the best of them may be chosen.
  if (isProven && wanted > 1) for (const hold of holds) yield* openEqually(hold);
  return { ways: waysInto(plane, holds, wanted), count: sum(holds, ({ most }) => most), isProven };

  function holdFor(tract: Tract): Hold {
    const key = keyOf(tract);
    const made = known.get(key);
    if (made) return made;
    const hold: Hold = {
      tract,
      // What holds takes one at least.
      least: Math.max(1, leastAdded(plane, tract)),
      most: Number.POSITIVE_INFINITY,
      openings: [],
      chords: null,
      drawnTo: 0,
      pairsTo: 0,
      isOpenedEqually: false,
    };
    known.set(key, hold);
    return hold;
  }

  /** The openings of a hold that may do with so many pieces, the most promising first. */
  function openingsOf(hold: Hold, limit: number, pairs: boolean): Opening[] {
    // Round an island a chord runs through one piece more than it adds.
    const most = limit + 1;
    hold.chords ??= chordsOf(plane, hold.tract);
    const chords =
      hold.drawnTo < most ? hold.chords.drawn(most).filter(({ through }) => through > hold.drawnTo) : [];
    hold.drawnTo = Math.max(hold.drawnTo, most);
    if (pairs && hold.pairsTo < most && hold.tract.pieces.length <= PIECES_FOR_PAIRS) {
      chords.push(...hold.chords.pairs(most).filter(({ through }) => through > hold.pairsTo));
      hold.pairsTo = most;
    }
    for (const chord of chords) {
      // A step in a large region takes longer.
      spent += 1 + hold.tract.pieces.length / 32;
      const parted = partAlong(plane, hold.tract, chord);
      if (!parted || parted.count <= 0) continue;
      hold.openings.push({ count: parted.count, added: parted.added, left: parted.holds.map(holdFor) });
    }
    return hold.openings
      .map((one) => ({ one, least: leastOf(one), held: sum(one.left, ({ tract }) => tract.pieces.length) }))
      .filter(({ least }) => least <= limit)
      .sort((a, b) => a.least - b.least || a.held - b.held)
      .map(({ one }) => one);
  }

  /** A first way: the most promising chords along drawn lines are gone into, each by the best of what it leaves. */
  function* lookInto(hold: Hold, width: number): Generator<null, void, void> {
    if (hold.most < Number.POSITIVE_INFINITY) return;
    let openings = openingsOf(hold, Number.POSITIVE_INFINITY, false);
    if (openings.length === 0) openings = openingsOf(hold, Number.POSITIVE_INFINITY, true);
    yield null;
    for (const one of openings.slice(0, width)) {
      if (leastOf(one) >= hold.most) continue;
      for (const next of one.left) yield* lookInto(next, Math.max(1, width - 1));
      hold.most = Math.min(hold.most, mostOf(one));
    }
  }

  /** Opens a hold with no more than so many pieces added, or learns that it takes more. */
  function* opens(hold: Hold, limit: number): Generator<null, void, void> {
    if (hold.most <= limit || hold.least > limit) return;
    yield null;
    for (const one of openingsOf(hold, limit, true)) {
      yield* opensAlong(one, limit);
      if (isSpent()) return;
      hold.most = Math.min(hold.most, mostOf(one));
      if (hold.most <= limit) return;
    }
    hold.least = limit + 1;
  }

  /** Opens what an opening leaves, each with as few as can be, for as long as so many pieces may still do. */
  function* opensAlong(one: Opening, limit: number): Generator<null, void, void> {
    for (const next of one.left)
      while (next.least < next.most && leastOf(one) <= limit && !isSpent()) yield* opens(next, next.least);
  }

  /** Opens a hold along every chord that does with the fewest, and what those leave likewise. */
  function* openEqually(hold: Hold): Generator<null, void, void> {
    if (hold.isOpenedEqually) return;
    hold.isOpenedEqually = true;
    for (const one of openingsOf(hold, hold.most, true)) {
      if (isSpent()) return;
      yield* opensAlong(one, hold.most);
      if (mostOf(one) === hold.most) for (const next of one.left) yield* openEqually(next);
    }
  }
}
