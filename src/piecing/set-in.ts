import { isOneStretch } from '../geometry/one-stretch.ts';
import type { Point } from '../geometry/point.ts';
import { distance } from '../geometry/ring.ts';
import { refusedAlong, seamMeets } from './partings.ts';
import type { Pattern } from './pattern.ts';
import { holdsWithout } from './peel.ts';
import { cellsOf, keyOf, maskOf, type Region, sidesOf, spread, without } from './region.ts';

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

/** Numbers of a seam, its half-edges in turn where it has but one stretch after the other. */
function measured(pattern: Pattern, left: Region, right: Region, edges: readonly number[]): SetInSplit {
  const { straight } = pattern;
  const { origin, vertices } = pattern.division;
  const refused = refusedAlong(pattern, edges);
  const segments = edges.map((h) => [vertices[origin[h]!]!, vertices[origin[h ^ 1]!]!] as const);
  let corners = 0;
  let matches = 0;
  // A seam that closes on itself turns from its last edge to its first as well.
  const isClosed = origin[edges[0]!] === origin[edges.at(-1)! ^ 1];
  edges.forEach((h, k) => {
    if (k === 0 && !isClosed) return;
    const before = edges.at(k - 1)!;
    if (straight[h >> 1] !== straight[before >> 1] || origin[before ^ 1] !== origin[h]) corners++;
    if (seamMeets(pattern, left, h) && seamMeets(pattern, right, h)) matches++;
  });
  const length = segments.reduce((sum, [p, q]) => sum + distance(p, q), 0);
  // Round the tip of a sliver one straight line may turn back on itself.
  corners = isOneStretch(segments) ? 0 : Math.max(1, corners);
  return { left, right, corners, refused, matches, length: Math.round(64 * length) };
}

/** Rows of half-edges from rim to rim, those with the fewest turns first. */
function bentSeams(pattern: Pattern, region: Region): number[][] {
  const { straight } = pattern;
  const { face, next, origin, vertices } = pattern.division;
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
  // The fewest turns from the rim to each half-edge and along it, and the half-edge before it on that way.
  const turns = new Int32Array(face.length).fill(-1);
  const before = new Int32Array(face.length).fill(-1);
  let waiting: { h: number; from: number }[] = inner.flatMap((h) =>
    isRim[origin[h]!] === 1 ? [{ h, from: -1 }] : [],
  );
  for (let count = 0; waiting.length > 0; count++) {
    const later: { h: number; from: number }[] = [];
    for (let k = 0; k < waiting.length; k++) {
      const { h, from } = waiting[k]!;
      if (turns[h]! >= 0) continue;
      turns[h] = count;
      before[h] = from;
      if (isRim[origin[h ^ 1]!] === 1) continue;
      for (let on = next[h]!; on !== (h ^ 1); on = next[on ^ 1]!) {
        if (!isInner(on) || turns[on]! >= 0) continue;
        (straight[on >> 1] === straight[h >> 1] ? waiting : later).push({ h: on, from: h });
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
