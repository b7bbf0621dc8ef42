import { type CutSize, type LaidCut, type LaidStrip, lengthOfStrips, ROUNDING } from './cloth.ts';
import { firstFit, type Stance } from './first-fit.ts';
import { type Sort, sortedCuts } from './sorts.ts';
import { stripBound } from './strip-bound.ts';
import { type Filled, searchStrips } from './strip-search.ts';

/** Work for an answer to look at now, and for the one to cut by: about a tenth and half a second. */
export const QUICK_STEPS = 0;
export const THOROUGH_STEPS = 3e7;

const STANCES: readonly Stance[] = ['as-asked', 'low', 'narrow'];

/**
 * Strips across the usable width for all the cuts, two-stage: strips first, then each is sub-cut across. The shortest
 * total length found; never longer than first fit by falling height. Every cut must fit the width, see `fitsWidth`.
 * The tallest strip comes first, and in a strip the tallest cut, so that what is trimmed lower lies at its end.
 * `steps`: how much searching is allowed, see `searchStrips`.
 */
export function layStrips(
  items: readonly CutSize[],
  usableWidth: number,
  steps: number,
): readonly LaidStrip[] {
  if (items.length === 0) return [];
  const sorted = sortedCuts(items, usableWidth);
  let start = firstFit(sorted.sorts, usableWidth, STANCES[0]!);
  for (const stance of STANCES.slice(1)) {
    const other = firstFit(sorted.sorts, usableWidth, stance);
    if (lengthOfStrips(other) < lengthOfStrips(start) - ROUNDING) start = other;
  }
  // Nothing to look for where first fit has done what can be done.
  const isBest =
    start.length === 1 || lengthOfStrips(start) <= stripBound(items, usableWidth).length + ROUNDING;
  const filled = isBest ? start : searchStrips(sorted, start, steps);
  return inOrder(withItems(filled, sorted.sorts));
}

/** Gives each place in the strips one of the cuts of its sort, the earliest asked for first. */
function withItems(strips: readonly Filled[], sorts: readonly Sort[]): LaidStrip[] {
  const given = sorts.map(() => 0);
  return strips.map(({ height, picks }) => ({
    height,
    cuts: picks.flatMap(({ sort, way, count }): LaidCut[] => {
      const { ways, items } = sorts[sort]!;
      const { width, height: tall } = ways[way]!;
      return Array.from({ length: count }, () => ({ item: items[given[sort]!++]!, width, height: tall }));
    }),
  }));
}

function inOrder(strips: readonly LaidStrip[]): readonly LaidStrip[] {
  return strips
    .map(({ height, cuts }) => ({
      height,
      cuts: [...cuts].sort((a, b) => b.height - a.height || b.width - a.width || a.item - b.item),
    }))
    .sort((a, b) => b.height - a.height || a.cuts[0]!.item - b.cuts[0]!.item);
}
