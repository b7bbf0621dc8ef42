import { ROUNDING } from './cloth.ts';
import type { Sort } from './sorts.ts';
import type { Filled } from './strip-search.ts';

/** How cuts are turned before they are laid: as low, or as narrow, as they can be, or as they were asked for. */
export type Stance = 'as-asked' | 'low' | 'narrow';

/**
 * First fit by falling height (Coffman, Garey, Johnson and Tarjan, SIAM J. Comput. 9, 1980): the tallest first, each
 * into the first strip with room, else into a new one. Never longer than 1.7 times the shortest plus the tallest
 * cut, for cuts that are not turned. Cost: O(sorts × strips), whatever the number of cuts.
 */
export function firstFit(sorts: readonly Sort[], usableWidth: number, stance: Stance): readonly Filled[] {
  const laid = sorts.map(({ ways, items }, sort) => {
    const way = stance === 'as-asked' || ways.length < 2 ? 0 : wayFor(ways, stance);
    return { sort, way, count: items.length, ...ways[way]! };
  });
  laid.sort((a, b) => b.height - a.height || b.width - a.width);
  const narrowest = laid.reduce((least, { width }) => Math.min(least, width), Number.POSITIVE_INFINITY);
  const strips: { height: number; picks: { sort: number; way: number; count: number }[]; room: number }[] =
    [];
  // Strips too full for the narrowest cut are looked at no more.
  let open: typeof strips = [];
  for (const { sort, way, count, width, height } of laid) {
    let left = count;
    const put = (strip: (typeof strips)[number]): void => {
      const some = Math.min(left, Math.floor((strip.room + ROUNDING) / width));
      if (some === 0) return;
      strip.picks.push({ sort, way, count: some });
      strip.room -= some * width;
      left -= some;
    };
    for (const strip of open) {
      if (left === 0) break;
      put(strip);
    }
    while (left > 0) {
      const strip = { height, picks: [], room: usableWidth };
      put(strip);
      strips.push(strip);
      open.push(strip);
    }
    open = open.filter(({ room }) => room + ROUNDING >= narrowest);
  }
  return strips;
}

const wayFor = ([a, b]: Sort['ways'], stance: 'low' | 'narrow'): number =>
  a!.height > b!.height === (stance === 'low') ? 1 : 0;
