import { distance } from '../../geometry/ring.ts';
import { type Hold, mostOf } from './hold.ts';
import type { Added } from './part-along.ts';
import type { Plane } from './plane.ts';

/** Ways put together for a hold before the best of them are kept. */
const TRIED = 400;

type Way = readonly Added[];

/** Different ways to open some holds with the fewest pieces known to do, those with the shortest seams first. */
export function waysInto(plane: Plane, holds: readonly Hold[], wanted: number): Way[] {
  const known = new Map<Hold, Way[]>();
  return together(holds);

  function waysOf(hold: Hold): Way[] {
    const made = known.get(hold);
    if (made) return made;
    const found = new Map<string, Way>();
    for (const one of hold.openings) {
      if (mostOf(one) > hold.most) continue;
      for (const rest of together(one.left)) {
        const way = [...one.added, ...rest];
        found.set(nameOf(way), way);
      }
      if (found.size >= TRIED) break;
    }
    const ways = shortest([...found.values()]);
    known.set(hold, ways);
    return ways;
  }

  function together(some: readonly Hold[]): Way[] {
    return some.reduce<Way[]>(
      (ways, hold) => shortest(ways.flatMap((way) => waysOf(hold).map((more) => [...way, ...more]))),
      [[]],
    );
  }

  function shortest(ways: readonly Way[]): Way[] {
    if (ways.length <= wanted) return [...ways];
    return ways
      .map((way) => ({ way, length: lengthOf(way) }))
      .sort((a, b) => a.length - b.length)
      .slice(0, wanted)
      .map(({ way }) => way);
  }

  function lengthOf(way: Way): number {
    return way.reduce((sum, { from, to }) => sum + distance(plane.spots[from]!, plane.spots[to]!), 0);
  }
}

/** A text that names the stretches of a way, whatever their order. */
const nameOf = (way: Way): string =>
  way
    .map(({ from, to }) => (from < to ? `${from} ${to}` : `${to} ${from}`))
    .sort()
    .join(';');
