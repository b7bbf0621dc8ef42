import type { Pattern } from './pattern.ts';
import { contactOf, isPeelable } from './peel.ts';
import { neighboursOf, type Region } from './region.ts';

/** One position of a foundation: the cell, and the half-edges it is sewn along (none for position 1). */
export interface Step {
  readonly cell: number;
  readonly along: readonly number[];
}

/**
 * The piecing order of a region that sews on one foundation, position 1 first.
 *
 * It is found backwards: of the cells that can come off, the one that is best sewn last is taken. Best last, in
 * this order: the darker fabric where both ways are open (its allowance then lies under itself, not under a
 * light one), the fabric of the one sewn after it, a neighbour of the one sewn after it, the one farther down and right.
 * The same drawing gives the same order. Cost: O(cells²) at worst, on sections of a few dozen.
 */
export function pieceOrder(pattern: Pattern, region: Region): Step[] {
  const left = region.slice();
  const steps: Step[] = [];
  let count = left.reduce((sum, is) => sum + is, 0);
  let after = -1;
  const peelable = new Int8Array(pattern.cells).fill(-1);
  while (count > 1) {
    let best = -1;
    for (let c = 0; c < left.length; c++) {
      if (left[c] !== 1) continue;
      if (peelable[c]! < 0) peelable[c] = isPeelable(pattern, left, c) ? 1 : 0;
      if (peelable[c] === 1 && (best < 0 || isBetterLast(pattern, c, best, after))) best = c;
    }
    if (best < 0) throw new Error('a region that was found to sew on one foundation does not');
    const contact = contactOf(pattern, left, best);
    steps.push({ cell: best, along: contact.kind === 'straight' ? contact.edges : [] });
    left[best] = 0;
    count--;
    for (const n of neighboursOf(pattern, best)) if (left[n] === 1) peelable[n] = -1;
    after = best;
  }
  steps.push({ cell: left.indexOf(1), along: [] });
  return steps.reverse();
}

function isBetterLast(pattern: Pattern, c: number, best: number, after: number): boolean {
  const { lightness, fabric } = pattern;
  if (lightness[c] !== lightness[best]) return lightness[c]! < lightness[best]!;
  if (after >= 0) {
    const sameC = fabric[c] === fabric[after];
    if (sameC !== (fabric[best] === fabric[after])) return sameC;
    const nextToC = neighboursOf(pattern, after).has(c);
    if (nextToC !== neighboursOf(pattern, after).has(best)) return nextToC;
  }
  return c > best;
}
