import { distance } from '../geometry/ring.ts';
import type { Pattern } from './pattern.ts';
import { holdsWithout, isPeelable } from './peel.ts';
import { cellsOf, keyOf, type Region, without } from './region.ts';

/** A ring of cells opened along a seam that turns a corner: a section, and what is left. */
export interface SetInSplit {
  readonly left: Region;
  readonly right: Region;
  /** Corners the seam turns. */
  readonly corners: number;
  /** 1/64 in. */
  readonly length: number;
}

/**
 * Ways to open a region that no straight seam parts: from each cell a section is grown, one straight seam after
 * another, as long as what is left holds together. The widest sections come first, at most `most` of them.
 * A search by growth, not by trial of all: with set-in seams the fewest foundations are not promised.
 */
export function setInSplits(pattern: Pattern, region: Region, most: number): SetInSplit[] {
  const found = new Map<string, { section: Region; size: number }>();
  for (let c = 0; c < region.length; c++) {
    if (region[c] !== 1) continue;
    const section = grow(pattern, region, c);
    if (!section) continue;
    found.set(keyOf(section), { section, size: cellsOf(section).length });
  }
  return [...found.values()]
    .map(({ section, size }) => ({ section, size, seam: seamOf(pattern, region, section) }))
    .sort((a, b) => b.size - a.size || a.seam.corners - b.seam.corners || a.seam.length - b.seam.length)
    .slice(0, most)
    .map(({ section, seam }) => ({ left: section, right: without(region, section), ...seam }));
}

function grow(pattern: Pattern, region: Region, first: number): Region | null {
  if (!holdsWithout(pattern, region, first)) return null;
  const section = new Uint8Array(region.length);
  const rest = region.slice();
  section[first] = 1;
  rest[first] = 0;
  let left = cellsOf(rest).length;
  for (let isGrowing = true; isGrowing; ) {
    isGrowing = false;
    for (let c = 0; c < region.length && left > 1; c++) {
      if (rest[c] !== 1 || !pattern.neighbours[c]!.some((n) => section[n] === 1)) continue;
      section[c] = 1;
      if (isPeelable(pattern, section, c) && holdsWithout(pattern, rest, c)) {
        isGrowing = true;
        rest[c] = 0;
        left--;
      } else section[c] = 0;
    }
  }
  return section;
}

function seamOf(pattern: Pattern, region: Region, section: Region): { corners: number; length: number } {
  const { face, origin, vertices } = pattern.division;
  const lines = new Set<number>();
  let length = 0;
  for (let h = 0; h < face.length; h++) {
    const a = face[h]!;
    const b = face[h ^ 1]!;
    if (a < 0 || b < 0 || section[a] !== 1 || section[b] === 1 || region[b] !== 1) continue;
    lines.add(pattern.straight[h >> 1]!);
    length += distance(vertices[origin[h]!]!, vertices[origin[h ^ 1]!]!);
  }
  return { corners: lines.size - 1, length: Math.round(length * 64) };
}
