import type { Pattern } from './pattern.ts';
import { cellsOf, keyOf, type Region } from './region.ts';
import { ringsOf } from './rings.ts';
import { peelingHalves, type SetInSplit, setInSplits } from './set-in.ts';

/** A ring in a region, and the ways to open it that turn the fewest corners, as far as was looked. */
export interface OpenedRing {
  /** A cell of it. */
  readonly cell: number;
  /** Corners turned until it and all that is held inside it is open. */
  readonly corners: number;
  readonly ways: readonly Way[];
}

export interface Way {
  readonly split: SetInSplit;
  /** The rings that are left in its two units. */
  readonly inLeft: readonly OpenedRing[];
  readonly inRight: readonly OpenedRing[];
}

export interface Openings {
  /** Rings, opened. */
  readonly into: (rings: readonly Region[]) => readonly OpenedRing[];
  /** Ways to open a region along a set-in seam, whether or not a straight one parts it. */
  readonly waysInto: (region: Region) => readonly Way[];
}

/** Splits looked at for a ring, for one that is left in a unit of it, and so on. */
const SEEN = [30, 12, 6];

/** Of those looked at the most promising are gone into. */
const TRIED = [4, 2, 1];

/** Ways kept of those gone into. */
const KEPT = [4, 2];

const at = (numbers: readonly number[], depth: number): number => numbers[depth] ?? numbers.at(-1)!;

/**
 * Opens rings. What small ones come to `cornersOfAll` knows. Larger ones are opened by promise, not by trial of all: so
 * that both halves peel, or along a seam with few corners that leaves few patches held in the two units, which then
 * are opened in turn; that no other plan turns fewer corners is not promised.
 */
export function openingsOf(pattern: Pattern, cornersOfAll: (ring: Region) => number | null): Openings {
  const known = new Map<string, OpenedRing>();
  return {
    into: (rings) => opened(rings, 0),
    waysInto: (region) => openingAlong(region, 0).ways,
  };

  function opened(rings: readonly Region[], depth: number): OpenedRing[] {
    return rings.map((ring) => {
      const key = keyOf(ring);
      const made = known.get(key) ?? opening(ring, depth);
      known.set(key, made);
      return made;
    });
  }

  /** A small ring is opened in every way, later and as a whole; what that comes to is known at once. */
  function opening(ring: Region, depth: number): OpenedRing {
    const corners = cornersOfAll(ring);
    return corners === null ? openingAlong(ring, depth) : { cell: ring.indexOf(1), corners, ways: [] };
  }

  function openingAlong(ring: Region, depth: number): OpenedRing {
    const halves = peelingHalves(pattern, ring).map((split): Way & { corners: number } => ({
      split,
      inLeft: [],
      inRight: [],
      corners: split.corners,
    }));
    const seen = setInSplits(pattern, ring, at(SEEN, depth)).map((split) => {
      const left = ringsOf(pattern, split.left);
      const right = ringsOf(pattern, split.right);
      return { split, left, right, held: cellsIn(left) + cellsIn(right) };
    });
    const tried = seen
      .sort(
        ({ split: a, held }, { split: b, held: other }) =>
          a.corners - b.corners || a.refused - b.refused || held - other || a.length - b.length,
      )
      .slice(0, at(TRIED, depth))
      .map(({ split, left, right }) => {
        const inLeft = opened(left, depth + 1);
        const inRight = opened(right, depth + 1);
        return { split, inLeft, inRight, corners: split.corners + cornersOf(inLeft) + cornersOf(inRight) };
      });
    const all = [...halves, ...tried];
    const corners = Math.min(...all.map((way) => way.corners));
    const ways = all.filter((way) => way.corners === corners).slice(0, at(KEPT, depth));
    return { cell: ring.indexOf(1), corners, ways };
  }
}

const cellsIn = (rings: readonly Region[]): number =>
  rings.reduce((sum, ring) => sum + cellsOf(ring).length, 0);

export const cornersOf = (rings: readonly OpenedRing[]): number =>
  rings.reduce((sum, { corners }) => sum + corners, 0);

/** The rings that lie in a unit: straight seams run through none of them. */
export const ringsWithin = (rings: readonly OpenedRing[], unit: Region): readonly OpenedRing[] =>
  rings.length === 0 ? rings : rings.filter(({ cell }) => unit[cell] === 1);
