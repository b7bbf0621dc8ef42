import type { Segment } from '../../src/geometry/point.ts';
import type { Cut, CutRole } from '../../src/piecing/block.ts';
import type { Patch } from '../../src/piecing/plan.ts';
import { Neighbourhood, pairsAlong } from './check-plan.ts';
import { asOneStretch, cornersAlong } from './shared-boundary.ts';

/**
 * What can be sewn, by trying everything: no peeling, no list of partings, no bounds. It knows patches only as
 * outlines and asks one question, whether the boundary of two groups is one straight unbroken stretch. Groups
 * are bit masks over the patches, so it serves small blocks.
 */
export class Exhaustive {
  private readonly around: Neighbourhood;
  private readonly bestOf = new Map<number, Best>();
  private readonly orders = new Map<number, boolean>();
  private readonly unitFirstOf = new Map<number, number>();
  private readonly sewnOn = new Map<number, boolean>();

  /** Pairs of patches as masks: those a pinned join keeps apart, and those a pinned seam keeps together. */
  private readonly apart: readonly number[];
  private readonly together: readonly number[];

  constructor(
    private readonly patches: readonly Patch[],
    cuts: readonly Cut[] = [],
  ) {
    this.around = new Neighbourhood(patches);
    const pairs = (role: CutRole): number[] =>
      cuts
        .filter((cut) => cut.role === role)
        .flatMap((cut) => pairsAlong(cut, patches, this.around).map(([i, j]) => (1 << i) | (1 << j)));
    this.apart = pairs('join');
    this.together = pairs('seam');
  }

  private members(mask: number): number[] {
    return this.patches.map((_, i) => i).filter((i) => mask & (1 << i));
  }

  private meetStraight(a: number, b: number): boolean {
    const pieces: Segment[] = this.around.betweenAll(this.members(a), this.members(b));
    return asOneStretch(pieces).kind === 'straight';
  }

  /** Corners that the seam between two groups turns: straight stretches after the first. */
  private cornersBetween(a: number, b: number): number {
    return cornersAlong(this.around.betweenAll(this.members(a), this.members(b)));
  }

  /** Is there, among all orders of all patches, one in which every patch is sewn along one straight stretch? */
  somePermutationSews(): boolean {
    const n = this.patches.length;
    const sews = Array.from({ length: n }, (_, i) =>
      Array.from(
        { length: 1 << n },
        (__, mask) => mask !== 0 && !(mask & (1 << i)) && this.meetStraight(1 << i, mask),
      ),
    );
    const order = Array.from({ length: n }, (_, i) => i);
    // All permutations by Heap's method.
    const counters = new Array<number>(n).fill(0);
    const holds = (): boolean => {
      let earlier = 1 << order[0]!;
      for (const i of order.slice(1)) {
        if (!sews[i]![earlier]) return false;
        earlier |= 1 << i;
      }
      return true;
    };
    if (holds()) return true;
    for (let i = 0; i < n; ) {
      if (counters[i]! < i) {
        const j = i % 2 === 0 ? 0 : counters[i]!;
        [order[i], order[j]] = [order[j]!, order[i]!];
        if (holds()) return true;
        counters[i]!++;
        i = 0;
      } else counters[i++] = 0;
    }
    return false;
  }

  /** Can this group be sewn on one foundation? Some member comes last, and the others can be sewn before it. */
  private hasOrder(mask: number): boolean {
    const members = this.members(mask);
    if (members.length === 1) return true;
    const known = this.orders.get(mask);
    if (known !== undefined) return known;
    const found = members.some(
      (i) => this.meetStraight(1 << i, mask & ~(1 << i)) && this.hasOrder(mask & ~(1 << i)),
    );
    this.orders.set(mask, found);
    return found;
  }

  /**
   * The fewest corners that set-in joins of this group must turn (all patches unless said), and with so few the fewest foundations:
   * one foundation if it has an order, else the best of all partings in two connected groups, a parting being
   * straight when the two meet along one straight stretch and set in when they do not. Pinned cuts are obeyed;
   * `corners` is infinite when no plan obeys them all.
   */
  best(mask = (1 << this.patches.length) - 1): Best {
    const known = this.bestOf.get(mask);
    if (known) return known;
    const mayBeOne = !this.apart.some((pair) => (mask & pair) === pair);
    let best: Best =
      mayBeOne && this.hasOrder(mask)
        ? { corners: 0, foundations: 1 }
        : { corners: Number.POSITIVE_INFINITY, foundations: 0 };
    const lowest = mask & -mask;
    for (let part = (mask - 1) & mask; part > 0 && best.foundations !== 1; part = (part - 1) & mask) {
      const rest = mask & ~part;
      if (this.together.some((pair) => (part & pair) !== 0 && (rest & pair) !== 0)) continue;
      if (
        !(part & lowest) ||
        !this.around.connected(this.members(part)) ||
        !this.around.connected(this.members(rest))
      )
        continue;
      const [left, right] = [this.best(part), this.best(rest)];
      const corners = left.corners + right.corners + this.cornersBetween(part, rest);
      const foundations = left.foundations + right.foundations;
      if (corners < best.corners || (corners === best.corners && foundations < best.foundations))
        best = { corners, foundations };
    }
    this.bestOf.set(mask, best);
    return best;
  }

  /**
   * The same when a finished unit may be position 1 of a further paper: besides parting it, a group may be a
   * part of it, finished first, and then the other members sewn on one by one, for one paper more.
   * Pinned cuts are not looked at. Infinite where joins must be set in.
   */
  fewestUnitFirst(mask = (1 << this.patches.length) - 1): number {
    const known = this.unitFirstOf.get(mask);
    if (known !== undefined) return known;
    let best = this.hasOrder(mask) ? 1 : Number.POSITIVE_INFINITY;
    for (let part = (mask - 1) & mask; part > 0 && best > 2; part = (part - 1) & mask) {
      const rest = mask & ~part;
      if (!this.around.connected(this.members(part))) continue;
      if (this.sewsOnTo(part, rest)) best = Math.min(best, 1 + this.fewestUnitFirst(part));
      if (part < rest || !this.around.connected(this.members(rest)) || !this.meetStraight(part, rest))
        continue;
      best = Math.min(best, this.fewestUnitFirst(part) + this.fewestUnitFirst(rest));
    }
    this.unitFirstOf.set(mask, best);
    return best;
  }

  /** Can the members of `rest` be sewn to a finished unit one by one, each along one straight stretch? */
  private sewsOnTo(unit: number, rest: number): boolean {
    const key = unit * 2 ** this.patches.length + rest;
    const known = this.sewnOn.get(key);
    if (known !== undefined) return known;
    const found = this.members(rest).some((i) => {
      const before = rest & ~(1 << i);
      return this.meetStraight(1 << i, unit | before) && (before === 0 || this.sewsOnTo(unit, before));
    });
    this.sewnOn.set(key, found);
    return found;
  }
}

export interface Best {
  readonly corners: number;
  readonly foundations: number;
}
