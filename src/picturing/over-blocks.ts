import { type Line, type Piece, part } from './convex.ts';
import { branchOf, type Ground, type Node, restrict } from './tree.ts';

/** So many blocks of one size, side by side and one below another, over one picture. */
export interface BlockGrid {
  readonly columns: number;
  readonly rows: number;
}

/**
 * The tree spread over blocks: the lines between them first, then in each block the lines of the whole, as far as they
 * serve there. What runs on in the next block meets at the edge; what would leave a patch too thin or sharp in one block
 * stops before it. `settled` is given each block's part. Inches.
 */
export function overBlocks(
  ground: Ground,
  root: Node,
  { columns, rows }: BlockGrid,
  [width, height]: readonly [number, number],
  settled: (part: Node) => Node = (part) => part,
): Node {
  // What lies in two blocks cannot stay whole.
  const free: Ground = { ...ground, sums: { ...ground.sums, kept: [] } };
  const inBlock = (piece: Piece): Node => settled(restrict(free, root, piece) ?? bare(free, piece));
  const down = (piece: Piece, row: number): Node => {
    if (row === rows - 1) return inBlock(piece);
    const line: Line = { nx: 0, ny: 1, d: ((row + 1) * height) / rows };
    const [above, below] = part(piece, line)!;
    return branchOf(piece, line, inBlock(above), down(below, row + 1));
  };
  const across = (piece: Piece, column: number): Node => {
    if (column === columns - 1) return down(piece, 0);
    const line: Line = { nx: 1, ny: 0, d: ((column + 1) * width) / columns };
    const [left, right] = part(piece, line)!;
    return branchOf(piece, line, down(left, 0), across(right, column + 1));
  };
  return across(root.piece, 0);
}

/** A block narrower than its patches may be is one patch all the same. */
const bare = ({ sums: _, ...ground }: Ground, piece: Piece): Node => ({
  line: null,
  piece,
  sum: [0, 0, 0, 0],
  value: ground.worth([0, 0, 0, 0]),
  leaves: 1,
  foundations: 1,
  isRun: true,
});
