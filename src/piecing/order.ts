import type { Pattern } from './pattern.ts';
import { contactOf, isPeelable, peeled } from './peel.ts';
import { cellsOf, type Region } from './region.ts';

/** One position of a foundation: the cell, and the half-edges it is sewn along (none for position 1). */
export interface Step {
  readonly cell: number;
  readonly along: readonly number[];
}

/** What lies on the cells. */
export interface Cloth {
  /** Fabric of each cell by number, -1 where unpainted. */
  readonly fabric: Int32Array;
  /** How light it is, 0 … 1; 1 where unpainted. */
  readonly lightness: Float64Array;
}

/** What steers an order beside what can be sewn. */
export interface OrderWish {
  readonly cloth: Cloth;
  /** Cells that are there already, as a finished unit; they are not peeled. */
  readonly base?: Region;
  /** Place of a cell in an order set by hand, counted from 0; absent for cells not in it. */
  readonly rank?: ReadonlyMap<number, number>;
}

/**
 * The piecing order of a region that sews on one foundation (or on from `base`), the first position first.
 *
 * It is found backwards: of the cells that can come off, the one that is best sewn last is taken. Best last, in this
 * order: what an order by hand puts last (cells not in it come after those that are), the darker fabric where both
 * ways are open (its allowance then lies under itself, not under a light one), the fabric of the one sewn after it,
 * a neighbour of the one sewn after it, the one farther down and right. The same drawing gives the same order.
 * Cost: O(cells²) at worst, on sections of a few dozen.
 */
export function pieceOrder(pattern: Pattern, region: Region, wish: OrderWish): Step[] {
  const left = region.slice();
  const steps: Step[] = [];
  const own = cellsOf(region).filter((c) => wish.base?.[c] !== 1);
  let after = -1;
  const peelable = new Int8Array(pattern.cells).fill(-1);
  const last = wish.base ? 0 : 1;
  for (let count = own.length; count > last; count--) {
    let best = -1;
    for (const c of own) {
      if (left[c] !== 1) continue;
      if (peelable[c]! < 0) peelable[c] = isPeelable(pattern, left, c) ? 1 : 0;
      if (peelable[c] === 1 && (best < 0 || isBetterLast(pattern, wish, c, best, after))) best = c;
    }
    // Where lines all but meet, one that was taken may hold another; the way it was found goes through.
    if (best < 0) return orderAsFound(pattern, region, wish.base);
    const contact = contactOf(pattern, left, best);
    steps.push({ cell: best, along: contact.kind === 'straight' ? contact.edges : [] });
    left[best] = 0;
    for (const n of pattern.neighbours[best]!) if (left[n] === 1) peelable[n] = -1;
    after = best;
  }
  if (!wish.base) steps.push({ cell: left.indexOf(1), along: [] });
  return steps.reverse();
}

/** The order in which the cells came off when it was found that they do. */
function orderAsFound(pattern: Pattern, region: Region, base?: Region): Step[] {
  const { taken, left } = peeled(pattern, region);
  const before = region.slice();
  const steps = taken.map((cell): Step => {
    const contact = contactOf(pattern, before, cell);
    before[cell] = 0;
    return { cell, along: contact.kind === 'straight' ? contact.edges : [] };
  });
  if (!base) steps.push({ cell: left.indexOf(1), along: [] });
  return steps.reverse();
}

function isBetterLast(pattern: Pattern, wish: OrderWish, c: number, best: number, after: number): boolean {
  const { lightness, fabric } = wish.cloth;
  const rankC = wish.rank?.get(c) ?? Number.POSITIVE_INFINITY;
  const rankBest = wish.rank?.get(best) ?? Number.POSITIVE_INFINITY;
  if (rankC !== rankBest) return rankC > rankBest;
  if (lightness[c] !== lightness[best]) return lightness[c]! < lightness[best]!;
  if (after >= 0) {
    const sameC = fabric[c] === fabric[after];
    if (sameC !== (fabric[best] === fabric[after])) return sameC;
    const nextToC = pattern.neighbours[after]!.includes(c);
    if (nextToC !== pattern.neighbours[after]!.includes(best)) return nextToC;
  }
  return c > best;
}
