import { costInWords } from './assembly.ts';
import { clashesOf } from './clashes.ts';
import type { Pattern } from './pattern.ts';
import { keyOf, type Region, sidesOf, wholeOf } from './region.ts';
import { ringsOf } from './rings.ts';
import { cheapestAssembly, type SearchResult } from './search.ts';
import { setInSplits } from './set-in.ts';

/** Splits of a ring looked at. */
const SPLITS_SEEN = 40;

/** A ring opened so that its seam is sewn in two goes. */
interface PartialSplit {
  readonly left: Region;
  readonly right: Region;
  /** The edge that the seam begun earlier comes to where this one meets it; it must lie on a join. */
  readonly begun: number;
}

/**
 * A plan whose rings are each sewn with one partial seam: where lines chase each other round a middle, the first seam is
 * sewn part of the way, the others go round, then the first is finished. Null where there is no ring, or some ring cannot be
 * sewn so. By promise, not by trial of all: not proven to take the fewest foundations.
 */
export function partialAssembly(pattern: Pattern, budget: number): SearchResult | null {
  const rings = ringsOf(pattern, wholeOf(pattern));
  if (rings.length === 0 || pattern.isBlurred) return null;
  const role = pattern.role.slice();
  const opened = new Map<string, PartialSplit>();
  for (const ring of rings) {
    const split = bestSplit(pattern, ring, budget);
    if (!split) return null;
    role[split.begun] = JOIN;
    opened.set(keyOf(ring), split);
  }
  const marked = { ...pattern, role };
  const found = cheapestAssembly(marked, budget, { opened }, clashesOf(marked), []);
  const { corners, refused } = costInWords(found.cost);
  return corners > 0 || refused > 0 ? null : { ...found, isProven: false };
}

/** `join` as `Pattern.role` tells it. */
const JOIN = 1;

/** The split that takes the fewest foundations of those that make a partial seam. */
function bestSplit(pattern: Pattern, ring: Region, budget: number): PartialSplit | null {
  let best: { readonly split: PartialSplit; readonly foundations: number } | null = null;
  for (const { left, right, corners } of setInSplits(pattern, ring, SPLITS_SEEN)) {
    // What holds besides would turn corners all the same.
    if (corners !== 1 || [left, right].some((unit) => ringsOf(pattern, unit, 1).length > 0)) continue;
    for (const begun of begunEdges(pattern, ring, left, right)) {
      const split = { left, right, begun };
      const role = pattern.role.slice();
      role[begun] = JOIN;
      const marked = { ...pattern, role };
      const opened = new Map([[keyOf(ring), split]]);
      const { cost } = cheapestAssembly(marked, budget, { opened }, clashesOf(marked), [], ring);
      const comes = costInWords(cost);
      if (comes.corners > 0 || comes.refused > 0 || (best && comes.foundations >= best.foundations)) continue;
      best = { split, foundations: comes.foundations };
    }
  }
  return best?.split ?? null;
}

/**
 * Edges inside one of two units that carry one stretch of the seam between them straight on past its corner. Such an edge is
 * where the seam was begun; the stretch is the rest of it.
 */
function begunEdges(pattern: Pattern, ring: Region, left: Region, right: Region): number[] {
  const { straight, division } = pattern;
  const { face, origin } = division;
  const isIn = (region: Region, f: number): boolean => f >= 0 && region[f] === 1;
  const sides = [...new Set(sidesOf(pattern, ring).map((h) => h >> 1))];
  const seam = sides.filter((e) => {
    const [a, b] = [face[2 * e]!, face[2 * e + 1]!];
    return (isIn(left, a) && isIn(right, b)) || (isIn(left, b) && isIn(right, a));
  });
  const lines = [...new Set(seam.map((e) => straight[e]!))];
  if (lines.length !== 2) return [];
  const spotsOf = (line: number): Set<number> =>
    new Set(seam.filter((e) => straight[e] === line).flatMap((e) => [origin[2 * e]!, origin[2 * e + 1]!]));
  const [one, other] = lines.map(spotsOf);
  const corner = [...one!].find((spot) => other!.has(spot));
  if (corner === undefined) return [];
  return sides.filter((e) => {
    if (seam.includes(e) || !lines.includes(straight[e]!)) return false;
    if (origin[2 * e] !== corner && origin[2 * e + 1] !== corner) return false;
    const [a, b] = [face[2 * e]!, face[2 * e + 1]!];
    return (isIn(left, a) && isIn(left, b)) || (isIn(right, a) && isIn(right, b));
  });
}
