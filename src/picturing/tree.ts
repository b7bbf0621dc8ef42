import { keepsLimits, type Limits, type Line, type Piece, part } from './convex.ts';
import { partsKept, type Sum, type Sums, sumOver } from './pixels.ts';

/** A parting of the block: each line parts its piece wholly, so straight seams sew whatever comes out. */
export type Node = Leaf | Branch;

interface Common {
  readonly piece: Piece;
  /** What the leaves below explain, in squares of Lab × weight; the more the closer to the picture. */
  readonly value: number;
  readonly leaves: number;
  /** Foundations: runs of leaves that come off one after another are sewn on one paper. */
  readonly foundations: number;
  /** All leaves below are one such run. */
  readonly isRun: boolean;
}

export interface Leaf extends Common {
  readonly line: null;
  readonly sum: Sum;
}

export interface Branch extends Common {
  readonly line: Line;
  readonly less: Node;
  readonly more: Node;
}

/** What the tree is made over. */
export interface Ground {
  readonly sums: Sums;
  readonly limits: Limits;
  /** What a leaf explains. */
  readonly worth: (sum: Sum) => number;
}

/** With its mean colour for a fabric: |S|² / W, what of its variance is explained. */
export const byMean = ([w, l, a, b]: Sum): number => (w > 0 ? (l * l + a * a + b * b) / w : 0);

export function leafOf(ground: Ground, piece: Piece): Leaf | null {
  if (!keepsLimits(piece, ground.limits) || partsKept(ground.sums, piece)) return null;
  const sum = sumOver(ground.sums, piece);
  return { line: null, piece, sum, value: ground.worth(sum), leaves: 1, foundations: 1, isRun: true };
}

export function branchOf(piece: Piece, line: Line, less: Node, more: Node): Branch {
  const isRun = (less.line === null && more.isRun) || (more.line === null && less.isRun);
  return {
    line,
    less,
    more,
    piece,
    value: less.value + more.value,
    leaves: less.leaves + more.leaves,
    foundations: isRun ? 1 : less.foundations + more.foundations,
    isRun,
  };
}

/** The same lines over another piece; null where one of them misses it or a leaf would break the limits. */
export function refit(ground: Ground, node: Node, piece: Piece): Node | null {
  if (node.line === null) return leafOf(ground, piece);
  const parts = part(piece, node.line);
  if (parts === null) return null;
  const less = refit(ground, node.less, parts[0]);
  if (less === null) return null;
  const more = refit(ground, node.more, parts[1]);
  return more === null ? null : branchOf(piece, node.line, less, more);
}

/** The same lines over another piece as far as they serve there; those that miss it or cut too thin are left out. */
export function restrict(ground: Ground, node: Node, piece: Piece): Node | null {
  if (node.line === null) return leafOf(ground, piece);
  const parts = part(piece, node.line);
  if (parts === null) {
    const side = sideOf(piece, node.line);
    return restrict(ground, side < 0 ? node.less : node.more, piece);
  }
  const less = restrict(ground, node.less, parts[0]);
  const more = restrict(ground, node.more, parts[1]);
  if (less !== null && more !== null) return branchOf(piece, node.line, less, more);
  return restrict(ground, (less ?? more) === less ? node.less : node.more, piece) ?? leafOf(ground, piece);
}

function sideOf(piece: Piece, { nx, ny, d }: Line): number {
  let sum = 0;
  for (let i = 0; i < piece.length; i += 2) sum += nx * piece[i]! + ny * piece[i + 1]! - d;
  return sum;
}

/** The way down to a node: true for the side where more lies. */
export type Path = readonly boolean[];

export function nodeAt(root: Node, path: Path): Node {
  let node = root;
  for (const isMore of path) node = isMore ? (node as Branch).more : (node as Branch).less;
  return node;
}

/** The tree with another node at the end of a path. */
export function replaced(root: Node, path: Path, node: Node, depth = 0): Node {
  if (depth === path.length) return node;
  const branch = root as Branch;
  return path[depth]!
    ? branchOf(branch.piece, branch.line, branch.less, replaced(branch.more, path, node, depth + 1))
    : branchOf(branch.piece, branch.line, replaced(branch.less, path, node, depth + 1), branch.more);
}

export function pathsOf(root: Node, wanted: (node: Node) => boolean): Path[] {
  const found: Path[] = [];
  const walk = (node: Node, path: boolean[]): void => {
    if (wanted(node)) found.push([...path]);
    if (node.line === null) return;
    walk(node.less, [...path, false]);
    walk(node.more, [...path, true]);
  };
  walk(root, []);
  return found;
}

export function leavesOf(root: Node): Leaf[] {
  if (root.line === null) return [root];
  return [...leavesOf(root.less), ...leavesOf(root.more)];
}

/** The tree with its leaves worth something else. */
export function revalued(ground: Ground, node: Node): Node {
  if (node.line === null) return { ...node, value: ground.worth(node.sum) };
  return branchOf(node.piece, node.line, revalued(ground, node.less), revalued(ground, node.more));
}
