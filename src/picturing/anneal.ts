import { middleOf, part } from './convex.ts';
import { grow } from './grow.ts';
import { bestSplit, moved, type SplitWish } from './split.ts';
import {
  type Branch,
  branchOf,
  type Ground,
  type Leaf,
  leafOf,
  type Node,
  nodeAt,
  type Path,
  pathsOf,
  refit,
  replaced,
  restrict,
} from './tree.ts';

export interface AnnealOptions extends SplitWish {
  /** Leaves to keep to. */
  readonly count: number;
  readonly steps: number;
  /** What a foundation costs, in the measure of the tree's value. */
  readonly charge: number;
  /** How much worse a change may be at the beginning, as a share of what a leaf explains on average. */
  readonly heat: number;
  readonly chance: () => number;
  /** Lines are moved and turned, nothing else. */
  readonly isPolish?: boolean;
}

/**
 * Betters a tree by small changes, taken when they are better, or, as long as it is warm, not much worse. A line is
 * moved with all that hangs on it kept; the line that is least missed is taken out and another put in where it serves
 * most; a line from further down is lifted above others, and what hung there is fitted in on both sides. Lifting is
 * what lets a long edge of the picture become one line. Result: the best tree met.
 */
export function anneal(ground: Ground, start: Node, options: AnnealOptions): Node {
  const { chance, charge, steps, heat, count } = options;
  const total = (root: Node): number => root.value - charge * root.foundations;
  let root = start;
  let worth = total(root);
  let [best, bestWorth] = [root, worth];
  const warm = (heat * Math.max(1e-9, start.value)) / Math.max(1, start.leaves);
  for (let step = 0; step < steps; step++) {
    const cold = 1 - step / steps;
    const next = change(ground, root, cold, options);
    if (next === null || next.leaves > count) continue;
    const there = total(next);
    if (there < worth && chance() >= Math.exp((there - worth) / (warm * cold * cold + 1e-12))) continue;
    [root, worth] = [next, there];
    if (worth > bestWorth && root.leaves >= best.leaves) [best, bestWorth] = [root, worth];
  }
  return best;
}

/** Shares of the ways a tree is changed; the rest are replantings. */
const SHIFTS = 0.8;
const LIFTS = 0.17;

function change(ground: Ground, root: Node, cold: number, options: AnnealOptions): Node | null {
  const { chance, isPolish = false } = options;
  const path = randomBranch(root, chance);
  if (path === null) return null;
  const kind = isPolish ? 0 : chance();
  if (kind < SHIFTS) return shifted(ground, root, path, cold, options);
  if (kind < SHIFTS + LIFTS) return lifted(ground, root, path, options);
  return transplanted(ground, root, options);
}

/** The way to a branch picked at random, each as likely as another. */
function randomBranch(root: Node, chance: () => number): Path | null {
  if (root.line === null) return null;
  let nth = Math.floor(chance() * (root.leaves - 1));
  const path: boolean[] = [];
  let node: Branch = root;
  for (;;) {
    if (nth === 0) return path;
    nth--;
    const inLess: number = node.less.leaves - 1;
    const isMore: boolean = nth >= inLess;
    if (isMore) nth -= inLess;
    path.push(isMore);
    node = (isMore ? node.more : node.less) as Branch;
  }
}

function shifted(
  ground: Ground,
  root: Node,
  path: Path,
  cold: number,
  { chance, isLevel = false, isPolish = false }: AnnealOptions,
): Node | null {
  const node = nodeAt(root, path) as Branch;
  const [mx, my] = middleOf(node.piece);
  const size = Math.sqrt(Math.abs(extent(node.piece)));
  // Steps of all sizes: what hangs on a line high up allows only small ones.
  const spread = (isPolish ? 0.06 : 0.05 + 0.15 * cold) * 10 ** (-1.6 * chance());
  const way = chance();
  const turn = isLevel || way < 0.35 ? 0 : normal(chance) * spread * 2.5;
  const shift = way > 0.65 ? 0 : normal(chance) * spread * size;
  const line = moved(node.line, turn, shift, mx, my);
  const parts = part(node.piece, line);
  if (parts === null) return null;
  const less = refit(ground, node.less, parts[0]);
  if (less === null) return null;
  const more = refit(ground, node.more, parts[1]);
  if (more === null) return null;
  return replaced(root, path, branchOf(node.piece, line, less, more));
}

function extent(piece: readonly number[]): number {
  let [lx, hx, ly, hy] = [piece[0]!, piece[0]!, piece[1]!, piece[1]!];
  for (let i = 2; i < piece.length; i += 2) {
    lx = Math.min(lx, piece[i]!);
    hx = Math.max(hx, piece[i]!);
    ly = Math.min(ly, piece[i + 1]!);
    hy = Math.max(hy, piece[i + 1]!);
  }
  return (hx - lx) * (hy - ly);
}

/** Near enough to a normal spread for steps of a search: the sum of three even ones. */
const normal = (chance: () => number): number => (chance() + chance() + chance() - 1.5) * 2;

/** A line from further down is put above its parent or grandparent; the tree is brought back to as many leaves. */
function lifted(
  ground: Ground,
  root: Node,
  path: Path,
  { chance, count, charge, ...wish }: AnnealOptions,
): Node | null {
  if (path.length === 0) return null;
  const height = path.length > 1 && chance() < 0.35 ? 2 : 1;
  const above = path.slice(0, path.length - height);
  const { line } = nodeAt(root, path) as Branch;
  const node = nodeAt(root, above) as Branch;
  const parts = part(node.piece, line);
  if (parts === null) return null;
  const less = restrict(ground, node, parts[0]);
  const more = restrict(ground, node, parts[1]);
  if (less === null || more === null) return null;
  let sub: Node = branchOf(node.piece, line, less, more);
  while (sub.leaves > node.leaves) {
    const pruned = withoutLeast(ground, sub);
    if (pruned === null) return null;
    sub = pruned;
  }
  const next = replaced(root, above, sub);
  return next.leaves < count ? grow(ground, next, count, charge, wish) : next;
}

/** The line that is least missed is taken out, and another put in where it serves most. */
function transplanted(
  ground: Ground,
  root: Node,
  { chance, count, charge, ...wish }: AnnealOptions,
): Node | null {
  const twigs = pathsOf(root, (node) => node.line !== null && node.leaves === 2);
  if (twigs.length === 0) return null;
  // The least of a few at random, so that not always the same is tried.
  let [out, least] = [twigs[0]!, Number.POSITIVE_INFINITY];
  for (let k = 0; k < 4; k++) {
    const path = twigs[Math.floor(chance() * twigs.length)]!;
    const loss = lossOf(ground, nodeAt(root, path) as Branch);
    if (loss < least) [out, least] = [path, loss];
  }
  const merged = leafOf(ground, nodeAt(root, out).piece);
  if (merged === null) return null;
  const without = replaced(root, out, merged);
  const leaves = pathsOf(without, ({ line }) => line === null);
  let [into, most]: [Path | null, number] = [null, 0];
  for (const path of leaves) {
    const leaf = nodeAt(without, path) as Leaf;
    if (leaf === merged) continue;
    const branch = bestSplit(ground, leaf, wish);
    if (branch !== null && branch.value - leaf.value > most) [into, most] = [path, branch.value - leaf.value];
  }
  if (into === null) return null;
  const next = replaced(without, into, bestSplit(ground, nodeAt(without, into) as Leaf, wish)!);
  return next.leaves < count ? grow(ground, next, count, charge, wish) : next;
}

function lossOf(ground: Ground, { less, more, value }: Branch): number {
  const [a, b] = [(less as Leaf).sum, (more as Leaf).sum];
  return value - ground.worth([a[0] + b[0], a[1] + b[1], a[2] + b[2], a[3] + b[3]]);
}

/** The tree without the line between two leaves that is least missed. */
export function withoutLeast(ground: Ground, root: Node): Node | null {
  let [best, least]: [Path | null, number] = [null, Number.POSITIVE_INFINITY];
  for (const path of pathsOf(root, (node) => node.line !== null && node.leaves === 2)) {
    const loss = lossOf(ground, nodeAt(root, path) as Branch);
    if (loss < least) [best, least] = [path, loss];
  }
  if (best === null) return null;
  const leaf = leafOf(ground, nodeAt(root, best).piece);
  return leaf === null ? null : replaced(root, best, leaf);
}
