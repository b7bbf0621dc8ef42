import type { Point, Segment } from '../../src/geometry/point.ts';
import type { Patch } from '../../src/piecing/plan.ts';
import {
  along,
  asOneStretch,
  distanceFromLine,
  lengthOf,
  sharedBoundary,
  TENTH_MM_IN,
} from './shared-boundary.ts';

/**
 * The fewest foundations by trying every straight parting, from the outlines of patches alone: no bounds, no
 * budget, no order of trial. It stands on the same sentence as the checker (all the boundary two groups share is
 * one straight, unbroken stretch) and serves blocks of up to 30 patches; groups are bit masks over the patches.
 */
export class EveryParting {
  readonly all: number;
  private readonly pieces: readonly Piece[];
  private readonly rows: readonly { readonly row: readonly Piece[]; readonly cells: number }[];
  private readonly around: number[];
  private readonly orders = new Map<number, boolean>();
  private readonly plain = new Map<number, number>();
  private readonly unitFirst = new Map<number, number>();

  constructor(patches: readonly Patch[]) {
    if (patches.length > 30) throw new Error('too many patches for bit masks');
    this.all = 2 ** patches.length - 1;
    this.around = patches.map(() => 0);
    const pieces: Piece[] = [];
    for (let i = 0; i < patches.length; i++)
      for (let j = 0; j < i; j++)
        for (const stretch of sharedBoundary(patches[i]!, patches[j]!)) {
          pieces.push({ i, j, stretch });
          this.around[i]! |= 1 << j;
          this.around[j]! |= 1 << i;
        }
    this.pieces = pieces;
    this.rows = rowsOf(pieces).map((row) => ({
      row,
      cells: row.reduce((cells, { i, j }) => cells | (1 << i) | (1 << j), 0),
    }));
  }

  /** Infinite where no straight joins will do. */
  fewest(mask = this.all): number {
    const known = this.plain.get(mask);
    if (known !== undefined) return known;
    let best = this.hasOrder(mask) ? 1 : Number.POSITIVE_INFINITY;
    if (best > 1)
      for (const [left, right] of this.partings(mask))
        best = Math.min(best, this.fewest(left) + this.fewest(right));
    this.plain.set(mask, best);
    return best;
  }

  /** The same where a finished unit may be position 1 of a further paper, the other members sewn on one by one. */
  fewestUnitFirst(mask = this.all): number {
    const known = this.unitFirst.get(mask);
    if (known !== undefined) return known;
    let best = this.hasOrder(mask) ? 1 : Number.POSITIVE_INFINITY;
    if (best > 1) {
      for (const [left, right] of this.partings(mask))
        best = Math.min(best, this.fewestUnitFirst(left) + this.fewestUnitFirst(right));
      for (const unit of this.unitsUnder(mask)) best = Math.min(best, 1 + this.fewestUnitFirst(unit));
    }
    this.unitFirst.set(mask, best);
    return best;
  }

  /** What every way of parting and joining costs at least, by a measure of each join: infinite where there is none. */
  least(
    costOf: (join: readonly Segment[]) => number,
    mask = this.all,
    known = new Map<number, number>(),
  ): number {
    const before = known.get(mask);
    if (before !== undefined) return before;
    let best = this.hasOrder(mask) ? 0 : Number.POSITIVE_INFINITY;
    if (best > 0)
      for (const [left, right, seam] of this.partings(mask))
        best = Math.min(
          best,
          costOf(seam) + this.least(costOf, left, known) + this.least(costOf, right, known),
        );
    known.set(mask, best);
    return best;
  }

  /** Does the group sew on one foundation? Some member comes last, and the others can be sewn before it. */
  hasOrder(mask: number): boolean {
    if ((mask & (mask - 1)) === 0) return true;
    const known = this.orders.get(mask);
    if (known !== undefined) return known;
    const found = this.lastOf(mask).some((rest) => this.hasOrder(rest));
    this.orders.set(mask, found);
    return found;
  }

  /** What is left when a member that meets the others along one straight stretch comes off: each way, as a mask. */
  private lastOf(mask: number): number[] {
    const found: number[] = [];
    for (let left = mask; left !== 0; left &= left - 1) {
      const one = left & -left;
      const rest = mask ^ one;
      if (rest !== 0 && this.meetStraight(one, rest) && this.isConnected(rest)) found.push(rest);
    }
    return found;
  }

  /** All units to which the other members of the group can be sewn one by one. */
  private unitsUnder(mask: number): Set<number> {
    const found = new Set<number>();
    const waiting = [mask];
    while (waiting.length > 0)
      for (const rest of this.lastOf(waiting.pop()!))
        if (!found.has(rest)) {
          found.add(rest);
          waiting.push(rest);
        }
    return found;
  }

  private seamBetween(a: number, b: number): Segment[] {
    return this.pieces
      .filter(({ i, j }) => ((a >> i) & 1 && (b >> j) & 1) || ((a >> j) & 1 && (b >> i) & 1))
      .map(({ stretch }) => stretch);
  }

  private meetStraight(a: number, b: number): boolean {
    return asOneStretch(this.seamBetween(a, b)).kind === 'straight';
  }

  private isConnected(mask: number): boolean {
    return this.spread(mask, mask & -mask, this.around) === mask;
  }

  private spread(mask: number, first: number, around: readonly number[]): number {
    let reached = first;
    let edge = first;
    while (edge !== 0) {
      let next = 0;
      for (let left = edge; left !== 0; left &= left - 1) next |= around[31 - Math.clz32(left & -left)]!;
      edge = next & mask & ~reached;
      reached |= edge;
    }
    return reached;
  }

  /**
   * Every way to part a group in two that hold together and meet along one straight unbroken stretch: each straight
   * row of pieces is opened, and what then falls apart is looked at.
   */
  private partings(mask: number): [left: number, right: number, seam: Segment[]][] {
    const found = new Map<number, [number, number, Segment[]]>();
    for (const { row, cells } of this.rows) {
      if ((cells & ~mask) !== 0) continue;
      const opened = new Set(row);
      const around = this.around.map(() => 0);
      for (const piece of this.pieces) {
        if (opened.has(piece)) continue;
        around[piece.i]! |= 1 << piece.j;
        around[piece.j]! |= 1 << piece.i;
      }
      const left = this.spread(mask, 1 << row[0]!.i, around);
      const right = mask & ~left;
      const key = Math.min(left, right);
      if (right === 0 || found.has(key) || this.spread(mask, right & -right, around) !== right) continue;
      const seam = this.seamBetween(left, right);
      if (asOneStretch(seam).kind === 'straight') found.set(key, [left, right, seam]);
    }
    return [...found.values()];
  }
}

interface Piece {
  readonly i: number;
  readonly j: number;
  readonly stretch: Segment;
}

/** Every straight unbroken row of pieces, from any end of one to any end of another, each once. */
function rowsOf(pieces: readonly Piece[]): Piece[][] {
  const spots = [...new Map(pieces.flatMap(({ stretch }) => stretch).map((p) => [`${p}`, p])).values()];
  const rows = new Map<string, Piece[]>();
  spots.forEach((a, k) => {
    for (const b of spots.slice(0, k)) {
      const length = lengthOf([a, b]);
      const isBetween = (p: Point): boolean => {
        const t = along(p, a, b);
        return t > -TENTH_MM_IN && t < length + TENTH_MM_IN && distanceFromLine(p, a, b) <= TENTH_MM_IN;
      };
      const row = pieces.filter(({ stretch }) => stretch.every(isBetween));
      if (asOneStretch(row.map(({ stretch }) => stretch)).kind !== 'straight') continue;
      rows.set(row.map((piece) => pieces.indexOf(piece)).join(' '), row);
    }
  });
  return [...rows.values()];
}
