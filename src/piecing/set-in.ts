import type { Point } from '../geometry/point.ts';
import { distance } from '../geometry/ring.ts';
import type { Pattern } from './pattern.ts';
import { contactOf, holdsWithout, sewsOnOneFoundation } from './peel.ts';
import { cellsOf, isConnected, keyOf, maskOf, type Region, sidesOf, spread, without } from './region.ts';
import { seamBetween } from './seam.ts';

/** A region opened along a seam that turns corners, and the two units it unites. */
export interface SetInSplit {
  readonly left: Region;
  readonly right: Region;
  /** Corners the seam turns; 0 where it is straight as far as a printed line shows. */
  readonly corners: number;
  /** Cuts pinned to stay inside a foundation that it runs along. */
  readonly refused: number;
  /** Spots where seams from both sides meet it. */
  readonly matches: number;
  /** 1/64 in. */
  readonly length: number;
}

/**
 * Ways to open a region that no straight seam parts, those that turn the fewest corners first, `most` of them: for each
 * inner edge the seam along it, from rim to rim, that turns the fewest; and the seams round what one cell encloses.
 * Cost: O(edges) a way.
 */
export function setInSplits(pattern: Pattern, region: Region, most: number): SetInSplit[] {
  const found = new Map<string, SetInSplit>();
  for (const edges of bentSeams(pattern, region)) {
    if (found.size >= most) break;
    const split = splitAlong(pattern, region, edges);
    if (split === null) continue;
    const key = keyOf(split.left);
    if (!found.has(key)) found.set(key, split);
  }
  const splits = [...found.values(), ...roundIslands(pattern, region)];
  return (splits.length > 0 ? splits : singleCells(pattern, region))
    .sort((a, b) => a.corners - b.corners || a.refused - b.refused || a.length - b.length)
    .slice(0, most);
}

/** The two units on either side of a row of half-edges, or null where the region holds together round it. */
function splitAlong(pattern: Pattern, region: Region, edges: readonly number[]): SetInSplit | null {
  const { face } = pattern.division;
  const isSeam = new Uint8Array(pattern.role.length);
  for (const h of edges) isSeam[h >> 1] = 1;
  const [a, b] = [face[edges[0]!]!, face[edges[0]! ^ 1]!];
  const first = spread(pattern, region, a, isSeam);
  if (first[b] === 1) return null;
  const second = spread(pattern, region, b, isSeam);
  // One name for one split, whichever way the seam was followed.
  const isTurned = region.indexOf(1) !== first.indexOf(1);
  const seam = edges.filter((h) => first[face[h]!] !== first[face[h ^ 1]!]);
  return measured(pattern, isTurned ? second : first, isTurned ? first : second, seam);
}

/** Numbers of the seam between two units, along some half-edges. */
function measured(pattern: Pattern, left: Region, right: Region, edges: readonly number[]): SetInSplit {
  const seam = seamBetween(pattern, edges);
  const { corners, refused, length } = seam;
  return { left, right, corners, refused, matches: seam.parting(left, right).matches, length };
}

/** Ways are told apart by length no finer than this: as they lie, the last digits of a length differ. */
const SHARES_PER_IN = 1024;

/** A half-edge reached on a way from the rim, inches / `SHARES_PER_IN` from there to its end. */
interface Step {
  readonly h: number;
  readonly from: number;
  readonly length: number;
}

/** Rows of half-edges from rim to rim, those with the fewest turns first. */
function bentSeams(pattern: Pattern, region: Region): number[][] {
  const { straight } = pattern;
  const { face, next, origin, vertices } = pattern.division;
  const lengthOf = (h: number): number => {
    const length = distance(vertices[origin[h]!]!, vertices[origin[h ^ 1]!]!);
    return Math.round(length * SHARES_PER_IN);
  };
  const isInner = (h: number): boolean => {
    const a = face[h]!;
    const b = face[h ^ 1]!;
    return a >= 0 && b >= 0 && region[a] === 1 && region[b] === 1;
  };
  const sides = sidesOf(pattern, region);
  const inner = sides.filter(isInner);
  const isRim = new Uint8Array(vertices.length);
  for (const h of sides) if (!isInner(h)) isRim[origin[h]!] = isRim[origin[h ^ 1]!] = 1;
  // By where they lie, not by when they were drawn: the same drawing has the same plan however it came about.
  const place = (h: number): Point => vertices[origin[h]!]!;
  inner.sort((h, k) => inReadingOrder(place(h), place(k)) || inReadingOrder(place(h ^ 1), place(k ^ 1)));
  // The fewest turns from the rim to each half-edge and along it, and the half-edge before it on the shortest such way.
  const turns = new Int32Array(face.length).fill(-1);
  const before = new Int32Array(face.length).fill(-1);
  let waiting = inner.flatMap((h): Step[] =>
    isRim[origin[h]!] === 1 ? [{ h, from: -1, length: lengthOf(h) }] : [],
  );
  for (let count = 0; waiting.length > 0; count++) {
    const later: Step[] = [];
    waiting.sort((a, b) => a.length - b.length);
    for (let k = 0; k < waiting.length; k++) {
      const { h, from, length } = waiting[k]!;
      if (turns[h]! >= 0) continue;
      turns[h] = count;
      before[h] = from;
      if (isRim[origin[h ^ 1]!] === 1) continue;
      for (let on = next[h]!; on !== (h ^ 1); on = next[on ^ 1]!) {
        if (!isInner(on) || turns[on]! >= 0) continue;
        const step: Step = { h: on, from: h, length: length + lengthOf(on) };
        if (straight[on >> 1] !== straight[h >> 1]) {
          later.push(step);
          continue;
        }
        let place = waiting.length;
        while (place > k + 1 && waiting[place - 1]!.length > step.length) place--;
        waiting.splice(place, 0, step);
      }
    }
    waiting = later;
  }
  const wayTo = (h: number): number[] => {
    const way: number[] = [];
    for (let at = h; at >= 0; at = before[at]!) way.push(at);
    return way.reverse();
  };
  return inner
    .filter((h) => inReadingOrder(place(h), place(h ^ 1)) < 0)
    .filter((h) => turns[h]! >= 0 && turns[h ^ 1]! >= 0 && turns[h]! + turns[h ^ 1]! > 0)
    .sort((h, k) => turns[h]! + turns[h ^ 1]! - turns[k]! - turns[k ^ 1]!)
    .flatMap((h) => {
      const onwards = wayTo(h ^ 1).map((k) => k ^ 1);
      const way = [...wayTo(h), ...onwards.reverse().slice(1)];
      const spots = new Set(way.map((k) => origin[k]!)).add(origin[way.at(-1)! ^ 1]!);
      return spots.size === way.length + 1 ? [way] : [];
    });
}

const inReadingOrder = (p: Point, q: Point): number => p[1] - q[1] || p[0] - q[0];

/** What lies inside one cell, taken out whole. */
function roundIslands(pattern: Pattern, region: Region): SetInSplit[] {
  const { face } = pattern.division;
  return cellsOf(region).flatMap((c) =>
    pattern.loops[c]!.slice(1).flatMap((loop) => {
      const inside = face[loop[0]! ^ 1]!;
      if (inside < 0 || region[inside] !== 1) return [];
      const edges = Array.from(loop);
      const rest = region.slice();
      rest[c] = 0;
      const island = spread(pattern, rest, inside);
      return [measured(pattern, without(region, island), island, edges)];
    }),
  );
}

/** Each cell without which the others hold together. */
function singleCells(pattern: Pattern, region: Region): SetInSplit[] {
  const { face } = pattern.division;
  return cellsOf(region)
    .filter((c) => holdsWithout(pattern, region, c))
    .map((c) => {
      const own = maskOf(pattern, [c]);
      const edges = pattern.loops[c]!.flatMap((loop) =>
        Array.from(loop).filter((h) => region[face[h ^ 1]!] === 1 && face[h ^ 1] !== c),
      );
      return measured(pattern, without(region, own), own, edges);
    });
}

/** Regions of more cells are not opened so. */
const MOST_GROWN = 100;

/** Contacts looked at, about: cells squared for each start. */
const MOST_CONTACTS = 20_000;

/**
 * Splits of which both units sew on one foundation each, whatever corners the seam turns: from a cell a unit grows by
 * what sews on to it and leaves the rest in one piece, first by what leaves the fewest neighbours behind. The cells
 * with the fewest neighbours are begun from, from as many as time allows.
 */
export function peelingHalves(pattern: Pattern, region: Region): SetInSplit[] {
  const cells = cellsOf(region);
  const found = new Map<string, SetInSplit>();
  if (cells.length > MOST_GROWN) return [];
  const neighbours = (c: number): number => pattern.neighbours[c]!.reduce((sum, n) => sum + region[n]!, 0);
  const starts = [...cells]
    .sort((a, b) => neighbours(a) - neighbours(b))
    .slice(0, Math.ceil(MOST_CONTACTS / cells.length ** 2));
  for (const start of starts) {
    const unit = maskOf(pattern, [start]);
    const rest = without(region, unit);
    let isWhole = holdsWithout(pattern, region, start);
    for (let count = 1; count < cells.length - 1; count++) {
      if (isWhole && sewsOnOneFoundation(pattern, rest)) {
        const split = splitBetween(pattern, unit, rest);
        found.set(keyOf(unit), split);
        break;
      }
      const next = bestToAdd(pattern, cells, unit, rest, isWhole);
      if (next < 0) break;
      unit[next] = 1;
      rest[next] = 0;
      isWhole ||= isConnected(pattern, rest);
    }
  }
  return [...found.values()];
}

/** The cell of the rest that sews on to a unit and has the fewest neighbours beside it; -1 where none does. */
function bestToAdd(
  pattern: Pattern,
  cells: readonly number[],
  unit: Region,
  rest: Region,
  isWhole: boolean,
): number {
  let best = -1;
  let least = Number.POSITIVE_INFINITY;
  for (const c of cells) {
    if (rest[c] !== 1) continue;
    let left = 0;
    let isBeside = false;
    for (const n of pattern.neighbours[c]!)
      if (rest[n] === 1) left++;
      else if (unit[n] === 1) isBeside = true;
    if (!isBeside || left >= least) continue;
    if (contactOf(pattern, unit, c).kind !== 'straight') continue;
    // What is in pieces already can only come together.
    if (isWhole && !holdsWithout(pattern, rest, c)) continue;
    best = c;
    least = left;
  }
  return best;
}

function splitBetween(pattern: Pattern, unit: Region, rest: Region): SetInSplit {
  const { face } = pattern.division;
  const edges = sidesOf(pattern, unit).filter((h) => rest[face[h ^ 1]!] === 1);
  return measured(pattern, unit, rest, edges);
}
