import { type Line, middleOf, type Piece, part } from './convex.ts';
import { type Sum, sumOver } from './pixels.ts';
import { type Branch, branchOf, type Ground, type Leaf, leafOf } from './tree.ts';

/** Directions tried for a line, places across the piece in each, and how many of the best are moved to where they serve best. */
const THOROUGH = { angles: 24, places: 14, refined: 3 };
const QUICK = { angles: 12, places: 7, refined: 1 };
/** A line that breaks the limits is passed over, and the next best taken, so many times. */
const MOST_PASSED = 40;

export interface SplitWish {
  /** Level and upright lines only. */
  readonly isLevel?: boolean;
  /** Fewer lines are tried: where a search asks thousands of times. */
  readonly isQuick?: boolean;
}

const splits = new WeakMap<Leaf, Branch | null>();

/** The best parting of a leaf in two, or null where limits allow none. Found once for each leaf as long as its worth is the same. */
export function bestSplit(ground: Ground, leaf: Leaf, wish: SplitWish = {}): Branch | null {
  const known = splits.get(leaf);
  if (known !== undefined) return known;
  const found = findSplit(ground, leaf, wish);
  splits.set(leaf, found);
  return found;
}

interface Candidate {
  readonly line: Line;
  readonly value: number;
}

function findSplit(ground: Ground, leaf: Leaf, wish: SplitWish): Branch | null {
  const { isLevel = false, isQuick = false } = wish;
  const effort = isQuick ? QUICK : THOROUGH;
  const candidates: Candidate[] = [];
  const angles = isLevel ? 2 : effort.angles;
  for (let k = 0; k < angles; k++) {
    const angle = (Math.PI * k) / angles;
    const [nx, ny] = [Math.cos(angle), Math.sin(angle)];
    const [low, high] = extentOf(leaf.piece, nx, ny);
    const step = (high - low) / (effort.places + 1);
    for (let p = 1; p <= effort.places; p++) {
      const line = { nx, ny, d: low + p * step };
      candidates.push({ line, value: valueAlong(ground, leaf, line) });
    }
  }
  candidates.sort((a, b) => b.value - a.value);
  const first = apart(candidates, effort.refined).map(({ line }) =>
    refined(ground, leaf, line, effort, isLevel),
  );
  let best: Branch | null = null;
  for (const { line } of first) {
    const branch = split(ground, leaf, line);
    if (branch !== null && (best === null || branch.value > best.value)) best = branch;
  }
  if (best !== null) return best;
  for (const { line } of candidates.slice(0, MOST_PASSED)) {
    const branch = split(ground, leaf, line);
    if (branch !== null) return branch;
  }
  for (let k = MOST_PASSED; k < candidates.length; k += 7) {
    const branch = split(ground, leaf, candidates[k]!.line);
    if (branch !== null) return branch;
  }
  return null;
}

/** A leaf parted along a line, or null where that breaks the limits. */
export function split(ground: Ground, { piece }: Leaf, line: Line): Branch | null {
  const parts = part(piece, line);
  if (parts === null) return null;
  const less = leafOf(ground, parts[0]);
  if (less === null) return null;
  const more = leafOf(ground, parts[1]);
  return more === null ? null : branchOf(piece, line, less, more);
}

/** What both sides of a line would explain together; limits are not looked at. */
function valueAlong(ground: Ground, { piece, sum }: Leaf, line: Line): number {
  const parts = part(piece, line);
  if (parts === null) return Number.NEGATIVE_INFINITY;
  const less = sumOver(ground.sums, parts[0]);
  const more: Sum = [sum[0] - less[0], sum[1] - less[1], sum[2] - less[2], sum[3] - less[3]];
  return ground.worth(less) + ground.worth(more);
}

function extentOf(piece: Piece, nx: number, ny: number): readonly [number, number] {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let i = 0; i < piece.length; i += 2) {
    const at = nx * piece[i]! + ny * piece[i + 1]!;
    if (at < low) low = at;
    if (at > high) high = at;
  }
  return [low, high];
}

/** The best of the candidates that are not near twins of better ones. */
function apart(candidates: readonly Candidate[], count: number): Candidate[] {
  const chosen: Candidate[] = [];
  for (const one of candidates) {
    if (chosen.length === count || !Number.isFinite(one.value)) break;
    const isTwin = chosen.some(({ line }) => line.nx * one.line.nx + line.ny * one.line.ny > 0.97);
    if (!isTwin) chosen.push(one);
  }
  return chosen;
}

/** A line moved by ever smaller steps, turned about the middle of the piece, as long as more is explained. */
function refined(ground: Ground, leaf: Leaf, start: Line, effort: typeof QUICK, isLevel: boolean): Candidate {
  const [mx, my] = middleOf(leaf.piece);
  let best = start;
  let value = valueAlong(ground, leaf, best);
  const [low, high] = extentOf(leaf.piece, start.nx, start.ny);
  let turn = Math.PI / effort.angles / 2;
  let shift = (high - low) / (effort.places + 1) / 2;
  for (let round = 0; round < 4; round++, turn /= 2, shift /= 2)
    for (const [da, dd] of [
      [turn, 0],
      [-turn, 0],
      [0, shift],
      [0, -shift],
    ] as const) {
      if (isLevel && da !== 0) continue;
      const line = moved(best, da, dd, mx, my);
      const there = valueAlong(ground, leaf, line);
      if (there > value) [best, value] = [line, there];
    }
  return { line: best, value };
}

/** A line turned about the point of it nearest to `mx`, `my`, radians, and shifted, inches. */
export function moved({ nx, ny, d }: Line, turn: number, shift: number, mx: number, my: number): Line {
  const off = nx * mx + ny * my - d;
  const [px, py] = [mx - off * nx, my - off * ny];
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  const [tx, ty] = [nx * c - ny * s, nx * s + ny * c];
  return { nx: tx, ny: ty, d: tx * px + ty * py + shift };
}
