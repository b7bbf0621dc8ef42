import { bestSplit, type SplitWish } from './split.ts';
import { type Ground, type Leaf, type Node, nodeAt, type Path, pathsOf, replaced } from './tree.ts';

/**
 * Parts the leaf where it explains most, again and again, until there are `count` leaves or nothing can be parted.
 * `charge`: what a further foundation costs, in the same measure.
 */
export function grow(ground: Ground, start: Node, count: number, charge: number, wish: SplitWish = {}): Node {
  let root = start;
  const open: { readonly path: Path; readonly gain: number }[] = [];
  const look = (path: Path): void => {
    const leaf = nodeAt(root, path) as Leaf;
    const branch = bestSplit(ground, leaf, wish);
    if (branch !== null) open.push({ path, gain: branch.value - leaf.value });
  };
  for (const path of pathsOf(root, ({ line }) => line === null)) look(path);
  while (root.leaves < count && open.length > 0) {
    let best = -1;
    let most = Number.NEGATIVE_INFINITY;
    open.forEach(({ path, gain }, k) => {
      if (gain <= most) return;
      const worth = charge === 0 ? gain : gain - charge * foundationsAdded(root, path);
      if (worth > most) [best, most] = [k, worth];
    });
    const { path } = open.splice(best, 1)[0]!;
    root = replaced(root, path, bestSplit(ground, nodeAt(root, path) as Leaf, wish)!);
    look([...path, false]);
    look([...path, true]);
  }
  return root;
}

/** How many foundations more there are when a leaf is parted. */
function foundationsAdded(root: Node, path: Path): number {
  const leaf = nodeAt(root, path) as Leaf;
  const halves = { ...leaf, line: { nx: 1, ny: 0, d: 0 }, less: leaf, more: leaf, leaves: 2 };
  return replaced(root, path, halves).foundations - root.foundations;
}
