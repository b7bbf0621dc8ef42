import { MM_PER_IN, TOUCH_IN } from '../../geometry/lattice.ts';
import { formatLength, type LengthUnit } from '../../geometry/length.ts';
import type { Point, Segment } from '../../geometry/point.ts';
import { cross, distance, distanceToSegment } from '../../geometry/ring.ts';
import { phrase } from '../../words/phrase.ts';
import type { Block, Cut } from '../block.ts';

/** What an end of a cut misses: the gap, and the cut beyond it, or null for the edge of the block. */
export interface Missed {
  readonly gap: Segment;
  readonly beside: Cut | null;
}

/** The ends of a cut that lie on no other cut and not on the edge of the block. */
export function freeEnds({ outline, cuts }: Block, cut: Cut): readonly ('from' | 'to')[] {
  const touches = (end: Point): boolean =>
    cuts.some((other) => other !== cut && liesOn(end, other.from, other.to)) ||
    outline.some((corner, k) => liesOn(end, corner, outline[(k + 1) % outline.length]!));
  return (['from', 'to'] as const).filter((end) => !touches(cut[end]));
}

/** Most segments lie far off: their boxes tell. */
const liesOn = ([x, y]: Point, a: Point, b: Point): boolean =>
  x >= Math.min(a[0], b[0]) - TOUCH_IN &&
  x <= Math.max(a[0], b[0]) + TOUCH_IN &&
  y >= Math.min(a[1], b[1]) - TOUCH_IN &&
  y <= Math.max(a[1], b[1]) + TOUCH_IN &&
  distanceToSegment([x, y], a, b) <= TOUCH_IN;

/** To the nearest 1/8 in, or millimetre; what is less is told to be less. */
export function shortfall(inches: number, unit: LengthUnit = 'in'): string {
  const step = unit === 'mm' ? 1 / MM_PER_IN : 1 / 8;
  return inches < step / 2
    ? phrase('less than {step}', { step: formatLength(step, unit) })
    : formatLength(Math.max(1, Math.round(inches / step)) * step, unit);
}

/** From a loose end straight on to the line or edge it would come to first; null where it is no end of the cut. */
export function missedBeyond(block: Block, cut: Cut, spot: Point): Missed | null {
  const isFrom = distance(cut.from, spot) < distance(cut.to, spot);
  const [start, end] = isFrom ? [cut.to, cut.from] : [cut.from, cut.to];
  if (distance(end, spot) > 2 * TOUCH_IN) return null;
  let least = Number.POSITIVE_INFINITY;
  let found: Missed | null = null;
  const look = (a: Point, b: Point, beside: Cut | null): void => {
    const [toA, toB] = [cross(start, end, a), cross(start, end, b)];
    if ((toA > 0 && toB > 0) || (toA < 0 && toB < 0) || toA === toB) return;
    const share = toA / (toA - toB);
    const at: Point = [a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])];
    const ahead = (at[0] - end[0]) * (end[0] - start[0]) + (at[1] - end[1]) * (end[1] - start[1]);
    const away = distance(end, at);
    if (ahead <= 0 || away <= TOUCH_IN || away >= least) return;
    least = away;
    found = { gap: [end, at], beside };
  };
  for (const other of block.cuts) if (other !== cut) look(other.from, other.to, other);
  block.outline.forEach((corner, k) => {
    look(corner, block.outline[(k + 1) % block.outline.length]!, null);
  });
  return found;
}
