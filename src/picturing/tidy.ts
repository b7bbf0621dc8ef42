import { type Line, part } from './convex.ts';
import {
  type Branch,
  branchOf,
  type Ground,
  leavesOf,
  type Node,
  nodeAt,
  type Path,
  pathsOf,
  refit,
  replaced,
} from './tree.ts';

/** Corners nearer than this to one another, on one line, are a near miss at the machine; inches. */
const NEAR_MISS_IN = 0.25;
/** Nearer than this they are one corner already. */
const SAME_IN = 1e-4;

type Spot = readonly [x: number, y: number];

/**
 * Brings the ends of lines together where they nearly meet, or pushes them well apart, one line after another, the way
 * that costs least. `most`: how much of the tree's value one such change may cost. A line is turned about its other
 * end, or shifted where `isLevel` keeps its direction, and what hangs on it stays. Result: never more near misses than
 * before.
 */
export function tidied(ground: Ground, start: Node, most: number, isLevel = false): Node {
  let root = start;
  for (let round = 0; round < 3; round++) {
    const before = root;
    for (const path of pathsOf(root, ({ line }) => line !== null))
      root = tidiedAt(ground, root, path, most, isLevel);
    if (root === before) break;
  }
  return root;
}

function tidiedAt(ground: Ground, root: Node, path: Path, most: number, isLevel: boolean): Node {
  const branch = nodeAt(root, path) as Branch;
  const ends = endsOf(branch);
  if (ends === null) return root;
  const misses = nearMisses(root);
  let best = root;
  let [fewest, value] = [misses, root.value];
  for (const at of [0, 1] as const) {
    const [end, other] = [ends[at], ends[1 - at]!];
    for (const spot of spotsFor(root, branch, end)) {
      const line = isLevel ? shiftedTo(spot, branch.line) : through(spot, other, branch.line);
      if (line === null) continue;
      const parts = part(branch.piece, line);
      const less = parts && refit(ground, branch.less, parts[0]);
      const more = less && refit(ground, branch.more, parts![1]);
      if (!less || !more) continue;
      const next = replaced(root, path, branchOf(branch.piece, line, less, more));
      if (root.value - next.value > most) continue;
      const left = nearMisses(next);
      if (left < fewest || (left === fewest && left < misses && next.value > value))
        [best, fewest, value] = [next, left, next.value];
    }
  }
  return best;
}

function endsOf({ piece, line }: Branch): readonly [Spot, Spot] | null {
  const parts = part(piece, line);
  if (parts === null) return null;
  const [less, more] = parts;
  const found: Spot[] = [];
  for (let i = 0; i < less.length; i += 2)
    for (let j = 0; j < more.length; j += 2)
      if (less[i] === more[j] && less[i + 1] === more[j + 1]) found.push([less[i]!, less[i + 1]!]);
  return found.length === 2 ? [found[0]!, found[1]!] : null;
}

/** Where an end could go: on to a corner it nearly meets, or along its side well away from it. */
function spotsFor(root: Node, { piece }: Branch, end: Spot): Spot[] {
  const side = sideThrough(piece, end);
  if (side === null) return [];
  const [a, b] = side;
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  const [ux, uy] = [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
  const spots: Spot[] = [];
  for (const corner of cornersOf(root)) {
    const gap = Math.hypot(corner[0] - end[0], corner[1] - end[1]);
    if (gap < SAME_IN || gap >= NEAR_MISS_IN) continue;
    const t = (corner[0] - a[0]) * ux + (corner[1] - a[1]) * uy;
    const off = Math.abs((corner[0] - a[0]) * uy - (corner[1] - a[1]) * ux);
    if (off > SAME_IN) continue;
    spots.push(corner);
    for (const away of [t + 1.05 * NEAR_MISS_IN, t - 1.05 * NEAR_MISS_IN])
      if (away > 0 && away < length) spots.push([a[0] + away * ux, a[1] + away * uy]);
  }
  return spots;
}

function sideThrough(piece: readonly number[], [x, y]: Spot): readonly [Spot, Spot] | null {
  for (let i = 0; i < piece.length; i += 2) {
    const j = (i + 2) % piece.length;
    const [ax, ay, bx, by] = [piece[i]!, piece[i + 1]!, piece[j]!, piece[j + 1]!];
    const length = Math.hypot(bx - ax, by - ay);
    if (length < SAME_IN) continue;
    const off = Math.abs((x - ax) * (by - ay) - (y - ay) * (bx - ax)) / length;
    const t = ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / length;
    if (off < SAME_IN && t > -SAME_IN && t < length + SAME_IN)
      return [
        [ax, ay],
        [bx, by],
      ];
  }
  return null;
}

const shiftedTo = ([x, y]: Spot, { nx, ny }: Line): Line => ({ nx, ny, d: nx * x + ny * y });

/** The line through two spots, its sides named as those of a line that it takes the place of. */
function through(a: Spot, b: Spot, like: Line): Line | null {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const length = Math.hypot(dx, dy);
  if (length < SAME_IN) return null;
  const sign = like.ny * dx - like.nx * dy >= 0 ? 1 : -1;
  const [nx, ny] = [(-sign * dy) / length, (sign * dx) / length];
  return { nx, ny, d: nx * a[0] + ny * a[1] };
}

/** Every corner of every leaf once. */
export function cornersOf(root: Node): Spot[] {
  const seen = new Map<string, Spot>();
  for (const { piece } of leavesOf(root))
    for (let i = 0; i < piece.length; i += 2) {
      const key = `${Math.round(piece[i]! / SAME_IN)},${Math.round(piece[i + 1]! / SAME_IN)}`;
      if (!seen.has(key)) seen.set(key, [piece[i]!, piece[i + 1]!]);
    }
  return [...seen.values()];
}

/** Pairs of corners nearer than a near miss; those nearer still count more. */
export function nearMisses(root: Node): number {
  const corners = cornersOf(root).sort((a, b) => a[0] - b[0]);
  let count = 0;
  for (let i = 0; i < corners.length; i++)
    for (let j = i + 1; j < corners.length && corners[j]![0] - corners[i]![0] < NEAR_MISS_IN; j++) {
      const gap = Math.hypot(corners[j]![0] - corners[i]![0], corners[j]![1] - corners[i]![1]);
      if (gap >= SAME_IN && gap < NEAR_MISS_IN) count += gap < NEAR_MISS_IN / 4 ? 2 : 1;
    }
  return count;
}
