import { OUTSIDE } from '../geometry/division.ts';
import type { Pattern } from './pattern.ts';
import type { Region } from './region.ts';

/**
 * A place where patches cannot all lie on one foundation, and the straight lines one of which must then be a join.
 *
 * Two kinds. Where lines cross, or seams meet a line from both sides at one spot: round that spot each patch
 * touches its neighbours along two lines. And where along one line a seam comes in from one side and the next
 * one from the other: of the four patches there each touches the others along two lines. A join that parts such
 * patches passes straight through the spot, so it lies on a line that does.
 */
export interface Clash {
  /** The patches round it. It binds a region only when all are in it. */
  readonly cells: Int32Array;
  /** Straight lines (index into `Pattern.lines`) that pass through it; any plan joins along one of them. */
  readonly lines: Int32Array;
  /** Whether every plan has one match point here. */
  readonly isMatch: boolean;
  /** Edge that lies on a join in any plan, where only one line can be that join; -1 where there is a choice. */
  readonly edge: number;
}

export function clashesOf(pattern: Pattern): Clash[] {
  const { division, lines } = pattern;
  const { origin, face } = division;
  const through = new Map<number, Set<number>>();
  const clashes: Clash[] = [];
  const spotOf = new Map<number, number>();
  lines.forEach(({ runs }, index) => {
    for (const run of runs) {
      let before: { vertex: number; h: number; isLeft: boolean } | null = null;
      for (let k = 1; k < run.length; k++) {
        const h = run[k]!;
        const vertex = origin[h]!;
        const isLeft = face[run[k - 1]!] !== face[h];
        const isRight = face[run[k - 1]! ^ 1] !== face[h ^ 1];
        if (isLeft && isRight) {
          through.set(vertex, (through.get(vertex) ?? new Set()).add(index));
          spotOf.set(vertex, h);
          before = null;
        } else if (isLeft || isRight) {
          if (before && before.isLeft !== isLeft) {
            const cells = new Set([...cellsRound(pattern, before.h), ...cellsRound(pattern, h)]);
            if (!cells.has(OUTSIDE))
              clashes.push({
                cells: Int32Array.from(cells),
                lines: Int32Array.of(index),
                isMatch: false,
                edge: before.h >> 1,
              });
          }
          before = { vertex, h, isLeft };
        }
      }
    }
  });
  for (const [vertex, indices] of through) {
    const h = spotOf.get(vertex)!;
    const cells = new Set(cellsRound(pattern, h));
    if (!cells.has(OUTSIDE))
      clashes.push({
        cells: Int32Array.from(cells),
        lines: Int32Array.from(indices),
        isMatch: true,
        edge: indices.size === 1 ? h >> 1 : -1,
      });
  }
  return clashes;
}

function cellsRound(pattern: Pattern, h: number): number[] {
  const { face, next } = pattern.division;
  const cells: number[] = [];
  let k = h;
  do {
    cells.push(face[k]!);
    k = next[k ^ 1]!;
  } while (k !== h);
  return cells;
}

/** Marks the vertices more than one straight line passes through. */
export function crossedVertices(pattern: Pattern): Uint8Array {
  const { division, lines } = pattern;
  const passes = new Uint8Array(division.vertices.length);
  const isCrossed = new Uint8Array(division.vertices.length);
  for (const { runs } of lines)
    for (const run of runs)
      for (let k = 1; k < run.length; k++) {
        const v = division.origin[run[k]!]!;
        if (passes[v] === 1) isCrossed[v] = 1;
        passes[v] = 1;
      }
  return isCrossed;
}

/** What the clashes say of a region. */
export interface Binding {
  /** Joins that any plan with straight joins only needs at least. */
  readonly joins: number;
  /** Match points that any such plan has at least. */
  readonly matches: number;
  /**
   * Edges that lie on a join in any plan. A straight line may run across a region that is not convex more than once,
   * so it is the stretch that counts, not the line.
   */
  readonly forced: ReadonlySet<number>;
}

/**
 * Counts joins that no plan of a region can do without: the lines that must be one, and the fewest further lines
 * that leave no crossing without a join. Cost: O(clashes), and a small search where many lines cross.
 */
export function bindingOf(pattern: Pattern, clashes: readonly Clash[], region: Region): Binding {
  const isForced = new Uint8Array(pattern.lines.length);
  const crossings: Clash[] = [];
  const forced = new Set<number>();
  let joins = 0;
  let matches = 0;
  for (const clash of clashes) {
    const { cells } = clash;
    let binds = true;
    for (let k = 0; k < cells.length && binds; k++) binds = region[cells[k]!] === 1;
    if (!binds) continue;
    if (clash.isMatch) matches++;
    if (clash.edge >= 0) forced.add(clash.edge);
    if (clash.lines.length > 1) crossings.push(clash);
    else if (isForced[clash.lines[0]!] === 0) {
      isForced[clash.lines[0]!] = 1;
      joins++;
    }
  }
  const open = crossings.filter(({ lines }) => !lines.some((line) => isForced[line] === 1));
  joins += fewestThrough(open.map(({ lines }) => [...lines]));
  return { joins, matches, forced };
}

/** Branchings spent on one region's crossings before a weaker count is taken. */
const MOST_BRANCHINGS = 400;

/**
 * The fewest lines so that each crossing (a list of lines) has one of them: a minimum hitting set, by branching on
 * the line in most crossings. When that takes too long: crossings with no line in common, which is never more.
 */
function fewestThrough(crossings: readonly (readonly number[])[]): number {
  let branchings = 0;
  let best = Number.POSITIVE_INFINITY;
  search(crossings, 0);
  return branchings > MOST_BRANCHINGS ? apart(crossings) : best;

  function search(left: readonly (readonly number[])[], taken: number): void {
    if (++branchings > MOST_BRANCHINGS || taken + apart(left) >= best) return;
    if (left.length === 0) {
      best = taken;
      return;
    }
    const count = new Map<number, number>();
    for (const crossing of left) for (const line of crossing) count.set(line, (count.get(line) ?? 0) + 1);
    let most = -1;
    for (const [line, times] of count) if (most < 0 || times > count.get(most)!) most = line;
    // With the line; or without it, then each crossing on it keeps only its other lines.
    search(
      left.filter((crossing) => !crossing.includes(most)),
      taken + 1,
    );
    const without = left.map((crossing) => crossing.filter((line) => line !== most));
    if (without.some((crossing) => crossing.length === 0)) return;
    const settled = new Set(without.filter((crossing) => crossing.length === 1).flat());
    search(
      without.filter((crossing) => !crossing.some((line) => settled.has(line))),
      taken + settled.size,
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
