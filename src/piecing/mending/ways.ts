import { distance } from '../../geometry/ring.ts';
import { type Hold, mostOf } from './hold.ts';
import type { Added } from './part-along.ts';
import type { Plane } from './plane.ts';

/** Ways put together for a hold before the best of them are kept. */
const TRIED = 400;

type Way = readonly Added[];

/**
 * Different ways to open some holds with the fewest pieces known to do: half of them those with the shortest seams, half those
 * along the fewest lines, which take fewer foundations.
 */
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
    const ways = bestOf([...found.values()]);
    known.set(hold, ways);
    return ways;
  }

  function together(some: readonly Hold[]): Way[] {
    return some.reduce<Way[]>(
      (ways, hold) => bestOf(ways.flatMap((way) => waysOf(hold).map((more) => [...way, ...more]))),
      [[]],
    );
  }

  function bestOf(ways: readonly Way[]): Way[] {
    if (ways.length <= wanted) return [...ways];
    const told = ways.map((way) => ({ way, length: lengthOf(way), lines: linesOf(way) }));
    const short = told.toSorted((a, b) => a.length - b.length);
    const straight = told.toSorted((a, b) => a.lines - b.lines || a.length - b.length);
    const best = new Set<Way>();
    for (let k = 0; best.size < wanted; k++) best.add(short[k]!.way).add(straight[k]!.way);
    return [...best];
  }

  function lengthOf(way: Way): number {
    return way.reduce((sum, { from, to }) => sum + distance(plane.spots[from]!, plane.spots[to]!), 0);
  }
}

const linesOf = (way: Way): number => new Set(way.map(({ line }) => line)).size;

/** A text that names the stretches of a way, whatever their order. */
const nameOf = (way: Way): string =>
  way
    .map(({ from, to }) => (from < to ? `${from} ${to}` : `${to} ${from}`))
    .sort()
    .join(';');
