import type { Clashes, Stop, Way } from './clashes.ts';
import { leastSum, type Term } from './least-sum.ts';
import type { Chord } from './partings.ts';
import type { Pattern } from './pattern.ts';
import type { Region } from './region.ts';

/** What the clashes say of a region. */
export interface Binding {
  /** Joins that any plan with straight joins only needs at least. */
  readonly joins: number;
  /** Match points that any such plan has at least. */
  readonly matches: number;
  /** Clashes that bind, and the ways on which one of them lies. */
  readonly binds: readonly number[];
  readonly ways: readonly Way[];
  /** Of each clash which of its lines passes through it when the joins are fewest; -1 where it does not bind. */
  readonly passing: Int8Array;
  /** Do the joins come to no more than `joins` when the lines pass so? Else the count is only a bound from below. */
  readonly isReached: boolean;
}

/** Where more crossings than this hang together lines are counted, not series: weaker, but soon done. */
const MOST_CHOICES = 90;

/** One join more weighs more than any length of joins, 1/64 in. */
const JOIN_WEIGHT = 2 ** 32;

/**
 * Counts joins that no plan of a region can do without.
 *
 * In any plan exactly one line passes through each clash as a join, the first that parts the patches round it; the
 * others stop there. So along a line each unbroken series of clashes it passes through is a join of its own, and
 * the joins are at least as many as there are such series. Which line passes where is chosen so that they are fewest,
 * and among those shortest. Cost: O(clashes and edges), and where lines cross that of `leastSum`.
 */
export function bindingOf(
  pattern: Pattern,
  clashes: Clashes,
  region: Region,
  within: Bounding = clashes,
): Binding {
  const bound = boundBy(clashes, region, within);
  const { passing, binds } = bound;
  const choices: number[] = [];
  if (!binds.some((c) => clashes.all[c]!.lines.length > 1))
    return { ...bound, joins: seriesIn(pattern, clashes, region, bound), isReached: true };
  const thingOf = new Int32Array(passing.length).fill(-1);
  for (const c of binds) {
    const { length } = clashes.all[c]!.lines;
    if (length > 1) thingOf[c] = choices.push(length) - 1;
  }
  if (choices.length > MOST_CHOICES) {
    const joins = countLines(clashes, bound);
    return { ...bound, joins, isReached: joins === seriesIn(pattern, clashes, region, bound) };
  }
  const terms: Term[] = [];
  let joins = 0;
  const enter = (first: Stop | null, second: Stop | null, length: number): void => {
    const a = first ? thingOf[first.clash]! : -1;
    const b = second ? thingOf[second.clash]! : -1;
    // A stop without a choice is always passed through; beyond the rim nothing is.
    const firstChoices = a >= 0 ? choices[a]! : 1;
    const secondChoices = b >= 0 ? choices[b]! : 1;
    const costs = new Float64Array(firstChoices * secondChoices);
    for (let x = 0; x < firstChoices; x++)
      for (let y = 0; y < secondChoices; y++) {
        const passesFirst = first !== null && (a < 0 || x === first.choice);
        const passesSecond = second !== null && (b < 0 || y === second.choice);
        costs[x * secondChoices + y] =
          (passesSecond && !passesFirst ? JOIN_WEIGHT : 0) + (passesFirst || passesSecond ? length : 0);
      }
    const things = [a, b].filter((t) => t >= 0);
    if (things.length > 0) terms.push({ things, costs });
    else if (costs[0]! >= JOIN_WEIGHT) joins++;
  };
  followWays(pattern, clashes, region, bound, enter);
  const { sum, chosen } = leastSum(choices, terms);
  for (const c of binds) if (thingOf[c]! >= 0) passing[c] = chosen[thingOf[c]!]!;
  joins += Math.floor(sum / JOIN_WEIGHT);
  return { ...bound, joins, isReached: joins === seriesIn(pattern, clashes, region, bound) };
}

/**
 * The weaker count, of lines: those that only can pass where they do, and the fewest further ones that leave no
 * crossing without a join. Settles in `passing` which line passes at each crossing.
 */
function countLines({ all }: Clashes, { binds, passing }: Bound): number {
  const joined = new Set<number>();
  for (const c of binds) if (all[c]!.lines.length === 1) joined.add(all[c]!.lines[0]!);
  const open: number[][] = [];
  for (const c of binds) if (!all[c]!.lines.some((line) => joined.has(line))) open.push([...all[c]!.lines]);
  const { least, lines } = fewestThrough(open);
  const count = joined.size + least;
  for (const line of lines) joined.add(line);
  for (const c of binds)
    passing[c] = Math.max(
      0,
      all[c]!.lines.findIndex((line) => joined.has(line)),
    );
  return count;
}

/** Branchings spent on one region's crossings before a weaker count is taken. */
const MOST_BRANCHINGS = 400;

/**
 * The fewest lines so that each crossing (a list of lines) has one of them: a minimum hitting set, by branching on
 * the line in most crossings. When that takes too long: crossings with no line in common, which is never more.
 */
function fewestThrough(crossings: readonly (readonly number[])[]): {
  least: number;
  lines: readonly number[];
} {
  let branchings = 0;
  let best = Number.POSITIVE_INFINITY;
  let bestLines: readonly number[] = [];
  search(crossings, []);
  return { least: branchings > MOST_BRANCHINGS ? apart(crossings) : best, lines: bestLines };

  function search(left: readonly (readonly number[])[], taken: readonly number[]): void {
    if (++branchings > MOST_BRANCHINGS || taken.length + apart(left) >= best) return;
    if (left.length === 0) {
      best = taken.length;
      bestLines = taken;
      return;
    }
    const count = new Map<number, number>();
    for (const crossing of left) for (const line of crossing) count.set(line, (count.get(line) ?? 0) + 1);
    let most = -1;
    for (const [line, times] of count) if (most < 0 || times > count.get(most)!) most = line;
    // With the line; or without it, then each crossing on it keeps only its other lines.
    search(
      left.filter((crossing) => !crossing.includes(most)),
      [...taken, most],
    );
    const without = left.map((crossing) => crossing.filter((line) => line !== most));
    if (without.some((crossing) => crossing.length === 0)) return;
    const settled = new Set(without.filter((crossing) => crossing.length === 1).flat());
    search(
      without.filter((crossing) => !crossing.some((line) => settled.has(line))),
      [...taken, ...settled],
    );
  }

  /** A count of crossings of which no two share a line: each needs a line of its own. */
  function apart(left: readonly (readonly number[])[]): number {
    const used = new Set<number>();
    let count = 0;
    for (const crossing of left) {
      if (crossing.some((line) => used.has(line))) continue;
      for (const line of crossing) used.add(line);
      count++;
    }
    return count;
  }
}

/**
 * The same for a unit left by a join that keeps to what passes in the whole: which line passes where stays as it is, and where it was
 * the best for the whole it is the best for each of the two units, so that nothing need be searched.
 */
export function bindingUnder(pattern: Pattern, clashes: Clashes, region: Region, whole: Binding): Binding {
  const bound = boundBy(clashes, region, whole);
  for (const c of bound.binds) bound.passing[c] = whole.passing[c]!;
  return { ...bound, joins: seriesIn(pattern, clashes, region, bound), isReached: true };
}

/**
 * The clashes that a join along a chord settles, when at each spot on its way it is the line that passes; -1 where it
 * would have to stop for another.
 */
export function settledBy(
  pattern: Pattern,
  { all, atVertex, onEdge }: Clashes,
  passing: Int8Array,
  { line, edges }: Chord,
): number {
  const { origin } = pattern.division;
  let count = 0;
  for (let k = 0; k < edges.length; k++) {
    const h = edges[k]!;
    for (const c of [onEdge[h >> 1]!, k > 0 ? atVertex[origin[h]!]! : -1]) {
      if (c < 0 || passing[c]! < 0) continue;
      if (all[c]!.lines[passing[c]!] !== line) return -1;
      count++;
    }
  }
  return count;
}

/** Where the clashes that bind a region, and the ways they lie on, are looked for: all there are, or those of a larger one. */
type Bounding = Clashes | Pick<Binding, 'binds' | 'ways'>;

type Bound = Pick<Binding, 'matches' | 'binds' | 'ways' | 'passing'>;

/** Which clashes bind a region: 0 in `passing` for those that do. Cost: O(clashes and ways looked at). */
function boundBy({ all, whole }: Clashes, region: Region, within: Bounding): Bound {
  const passing = new Int8Array(all.length).fill(-1);
  const binds: number[] = [];
  let matches = 0;
  for (const c of 'binds' in within ? within.binds : whole) {
    const { cells, isMatch } = all[c]!;
    let isBound = true;
    for (let k = 0; k < cells.length && isBound; k++) isBound = region[cells[k]!] === 1;
    if (!isBound) continue;
    if (isMatch) matches++;
    passing[c] = 0;
    binds.push(c);
  }
  const ways = within.ways.filter(({ stops }) => stops.some(({ clash }) => passing[clash]! >= 0));
  return { matches, binds, ways, passing };
}

/**
 * The edges that lie on a join in any plan, by the clashes that bind. A straight line may run across a region that is
 * not convex more than once, so it is the stretch that counts, not the line.
 */
export function forcedEdges({ all }: Clashes, { binds }: Binding): Set<number> {
  const forced = new Set<number>();
  for (const c of binds) if (all[c]!.edge >= 0) forced.add(all[c]!.edge);
  return forced;
}

/** The unbroken series of clashes that lines pass through, when it is settled which passes where. */
function seriesIn(pattern: Pattern, clashes: Clashes, region: Region, bound: Bound): number {
  const { passing } = bound;
  const passes = (stop: Stop | null): boolean => stop !== null && passing[stop.clash] === stop.choice;
  let series = 0;
  followWays(pattern, clashes, region, bound, (first, second) => {
    if (passes(second) && !passes(first)) series++;
  });
  return series;
}

/**
 * Goes along every line through a region, from each stop that binds to the next; null stands for the rim, where a join
 * ends. `length` is from stop to stop, 1/64 in.
 */
function followWays(
  pattern: Pattern,
  { all }: Clashes,
  region: Region,
  { ways, passing }: Bound,
  visit: (first: Stop | null, second: Stop | null, length: number) => void,
): void {
  const { face } = pattern.division;
  const isInside = (h: number): boolean => {
    const a = face[h]!;
    const b = face[h ^ 1]!;
    return a >= 0 && b >= 0 && region[a] === 1 && region[b] === 1;
  };
  for (const { run, stops, reach } of ways) {
    let before: Stop | null = null;
    let from = 0;
    for (const stop of stops) {
      const binds = passing[stop.clash]! >= 0;
      // A spot on the rim ends a join; a stretch that does not bind says nothing.
      if (!binds && !all[stop.clash]!.isMatch) continue;
      let start = stop.place;
      while (start > from && isInside(run[start - 1]!)) start--;
      if (start > from || !before || !binds) {
        if (before) {
          let end = from;
          while (end < stop.place && isInside(run[end]!)) end++;
          visit(before, null, reach[end]! - reach[from]!);
        }
        if (binds) visit(null, stop, reach[stop.place]! - reach[start]!);
      } else visit(before, stop, reach[stop.place]! - reach[from]!);
      before = binds ? stop : null;
      from = stop.place;
    }
    if (!before) continue;
    let end = from;
    while (end < run.length && isInside(run[end]!)) end++;
    visit(before, null, reach[end]! - reach[from]!);
  }
}
