import { snapPoint, TOUCH_IN } from '../../geometry/lattice.ts';
import type { Point } from '../../geometry/point.ts';
import { distanceToSegment } from '../../geometry/ring.ts';
import { phrase } from '../../words/phrase.ts';
import type { Block, Cut } from '../block.ts';

/** What is said of cuts and done to them, for all changes that are tried. */

/** `cut 3`, by its place in the block. */
export const named = (index: number): string => phrase('line {n}', { n: index + 1 });

/** `the upper end of cut 3`: ends told apart as they lie on the table. */
export function namedEnd(cut: Cut, index: number, end: 'from' | 'to'): string {
  const here = cut[end];
  const there = cut[end === 'from' ? 'to' : 'from'];
  const isUpright = Math.abs(here[1] - there[1]) > Math.abs(here[0] - there[0]);
  const side = isUpright ? (here[1] < there[1] ? 'upper' : 'lower') : here[0] < there[0] ? 'left' : 'right';
  return phrase('the {side, select, upper {upper} lower {lower} left {left} other {right}} end of {cut}', {
    side,
    cut: named(index),
  });
}

/** The cuts of a block with some of them others, or gone. */
export function replaced(block: Block, changed: ReadonlyMap<string, Cut | null>): readonly Cut[] {
  return block.cuts.flatMap((cut) => {
    const next = changed.get(cut.id);
    return next === undefined ? [cut] : next === null ? [] : [next];
  });
}

export const withEnd = (cut: Cut, end: 'from' | 'to', at: Point): Cut => ({ ...cut, [end]: snapPoint(at) });

export interface Meeting {
  /** Along the line through the cut: 0 at its other end, 1 at this one. */
  readonly t: number;
  readonly at: Point;
  /** Cut index met, or null for the outline. */
  readonly met: number | null;
}

/** Where the whole line through a cut, seen towards one of its ends, meets the other cuts and the outline. */
export function meetingsAlong(block: Block, index: number, end: 'from' | 'to'): Meeting[] {
  const cut = block.cuts[index]!;
  const a = end === 'to' ? cut.from : cut.to;
  const b = end === 'to' ? cut.to : cut.from;
  const dx = b[0] - a[0];
  const dy = b[1] - a[1];
  const length = Math.hypot(dx, dy);
  const found: Meeting[] = [];
  const test = (c: Point, d: Point, met: number | null): void => {
    const ex = d[0] - c[0];
    const ey = d[1] - c[1];
    const across = dx * ey - dy * ex;
    if (Math.abs(across) < 1e-9 * length * Math.hypot(ex, ey)) return;
    const t = ((c[0] - a[0]) * ey - (c[1] - a[1]) * ex) / across;
    const at: Point = [a[0] + t * dx, a[1] + t * dy];
    if (distanceToSegment(at, c, d) <= TOUCH_IN) found.push({ t, at, met });
  };
  block.outline.forEach((corner, k) => {
    test(corner, block.outline[(k + 1) % block.outline.length]!, null);
  });
  block.cuts.forEach((other, k) => {
    if (k !== index) test(other.from, other.to, k);
  });
  return found.sort((p, q) => p.t - q.t);
}
