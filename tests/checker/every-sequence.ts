import type { Segment } from '../../src/geometry/point.ts';
import type { Patch } from '../../src/piecing/plan.ts';
import { asOneStretch, cornersAlong, sharedBoundary } from './shared-boundary.ts';

export interface Fewest {
  /** Corners that set-in joins turn. */
  readonly corners: number;
  /** Papers, with so few corners. */
  readonly papers: number;
}

/**
 * The fewest corners, and with those the fewest papers, over every sequence of parts: any connected group may be parted
 * into any two connected groups, along a seam that runs straight or turns corners, and a group is one paper when its
 * patches can be sewn one after the other. From the outlines of patches alone; no bounds, no order of trial. Groups
 * are bit masks over up to 14 patches, and what two groups share is looked at once a set of pairs.
 */
export class EverySequence {
  readonly all: number;
  private readonly around: number[];
  private readonly pairs: { readonly i: number; readonly j: number; readonly stretches: Segment[] }[] = [];
  private readonly seams = new Map<string, { isStraight: boolean; corners: number }>();
  private readonly orders = new Map<number, boolean>();
  private readonly bestOf = new Map<number, Fewest>();
  private readonly holds = new Map<number, boolean>();

  constructor(patches: readonly Patch[]) {
    if (patches.length > 14) throw new Error('too many patches to try every sequence');
    this.all = (1 << patches.length) - 1;
    this.around = patches.map(() => 0);
    for (let i = 0; i < patches.length; i++)
      for (let j = 0; j < i; j++) {
        const stretches = sharedBoundary(patches[i]!, patches[j]!);
        if (stretches.length === 0) continue;
        this.pairs.push({ i, j, stretches });
        this.around[i]! |= 1 << j;
        this.around[j]! |= 1 << i;
      }
  }

  best(mask = this.all): Fewest {
    const known = this.bestOf.get(mask);
    if (known) return known;
    let best: Fewest = this.hasOrder(mask)
      ? { corners: 0, papers: 1 }
      : { corners: Number.POSITIVE_INFINITY, papers: 0 };
    const lowest = mask & -mask;
    for (let part = (mask - 1) & mask; part > 0 && best.papers !== 1; part = (part - 1) & mask) {
      const rest = mask & ~part;
      if (!(part & lowest) || !this.isConnected(part) || !this.isConnected(rest)) continue;
      const own = this.seam(part, rest).corners;
      if (own > best.corners) continue;
      const [left, right] = [this.best(part), this.best(rest)];
      const corners = left.corners + right.corners + own;
      const papers = left.papers + right.papers;
      if (corners < best.corners || (corners === best.corners && papers < best.papers))
        best = { corners, papers };
    }
    this.bestOf.set(mask, best);
    return best;
  }

  /** Does the group sew on one paper? Some member comes last, and the others can be sewn before it. */
  hasOrder(mask: number): boolean {
    if ((mask & (mask - 1)) === 0) return true;
    const known = this.orders.get(mask);
    if (known !== undefined) return known;
    let found = false;
    for (let left = mask; left !== 0 && !found; left &= left - 1) {
      const one = left & -left;
      found = this.seam(one, mask ^ one).isStraight && this.hasOrder(mask ^ one);
    }
    this.orders.set(mask, found);
    return found;
  }

  private seam(a: number, b: number): { isStraight: boolean; corners: number } {
    const crossed = this.pairs.flatMap(({ i, j }, k) =>
      ((a >> i) & (b >> j) & 1) | ((a >> j) & (b >> i) & 1) ? [k] : [],
    );
    const key = crossed.join(' ');
    const known = this.seams.get(key);
    if (known) return known;
    const stretches = crossed.flatMap((k) => this.pairs[k]!.stretches);
    const isStraight = asOneStretch(stretches).kind === 'straight';
    const seam = { isStraight, corners: isStraight ? 0 : cornersAlong(stretches) };
    this.seams.set(key, seam);
    return seam;
  }

  private isConnected(mask: number): boolean {
    const known = this.holds.get(mask);
    if (known !== undefined) return known;
    let reached = mask & -mask;
    for (let edge = reached; edge !== 0; ) {
      let next = 0;
      for (let left = edge; left !== 0; left &= left - 1) next |= this.around[31 - Math.clz32(left & -left)]!;
      edge = next & mask & ~reached;
      reached |= edge;
    }
    this.holds.set(mask, reached === mask);
    return reached === mask;
  }
}
