import type { Point, Segment } from '../../geometry/point.ts';
import { type Box, boxOf } from '../../geometry/ring.ts';

/** The box a label covers: its middle, half its width and height in inches, and its turn in radians clockwise. */
export interface LabelBox {
  readonly middle: Point;
  readonly halfWidth: number;
  readonly halfHeight: number;
  readonly turn: number;
}

/** Corners in turn. */
export function boxCorners({ middle, halfWidth, halfHeight, turn }: LabelBox): readonly Point[] {
  const cos = Math.cos(turn);
  const sin = Math.sin(turn);
  return (
    [
      [-1, -1],
      [1, -1],
      [1, 1],
      [-1, 1],
    ] as const
  ).map(([x, y]): Point => {
    const u = x * halfWidth;
    const v = y * halfHeight;
    return [middle[0] + u * cos - v * sin, middle[1] + u * sin + v * cos];
  });
}

/** The upright box around a label's box. */
function aroundBox({ middle: [x, y], halfWidth, halfHeight, turn }: LabelBox): Box {
  const cos = Math.abs(Math.cos(turn));
  const sin = Math.abs(Math.sin(turn));
  const across = halfWidth * cos + halfHeight * sin;
  const down = halfWidth * sin + halfHeight * cos;
  return { minX: x - across, minY: y - down, maxX: x + across, maxY: y + down };
}

/** Whether any of a straight stretch lies inside the box. */
export const boxMeetsSegment = (box: LabelBox, segment: Segment): boolean => insideBox(box, segment) !== null;

/** The part of a straight stretch inside the box, as shares of its length from its first end; null for none. */
export function insideBox(box: LabelBox, [a, b]: Segment): readonly [from: number, to: number] | null {
  const cos = Math.cos(box.turn);
  const sin = Math.sin(box.turn);
  const fromX = a[0] - box.middle[0];
  const fromY = a[1] - box.middle[1];
  const toX = b[0] - box.middle[0];
  const toY = b[1] - box.middle[1];
  // Clipping to the box in its own frame (Liang and Barsky 1984): t from 0 to 1 along the stretch.
  let from = 0;
  let to = 1;
  const clip = (start: number, end: number, half: number): void => {
    const step = end - start;
    if (step === 0) {
      if (Math.abs(start) > half) to = -1;
      return;
    }
    const one = (-half - start) / step;
    const other = (half - start) / step;
    from = Math.max(from, Math.min(one, other));
    to = Math.min(to, Math.max(one, other));
  };
  clip(fromX * cos + fromY * sin, toX * cos + toY * sin, box.halfWidth);
  if (from > to) return null;
  clip(fromY * cos - fromX * sin, toY * cos - toX * sin, box.halfHeight);
  return from <= to ? [from, to] : null;
}

/** Whether two boxes overlap: no line along a side of either parts them. */
export function boxesMeet(a: LabelBox, b: LabelBox): boolean {
  const dx = b.middle[0] - a.middle[0];
  const dy = b.middle[1] - a.middle[1];
  const reach = Math.hypot(a.halfWidth, a.halfHeight) + Math.hypot(b.halfWidth, b.halfHeight);
  if (dx * dx + dy * dy > reach * reach) return false;
  const shadow = (box: LabelBox, x: number, y: number): number => {
    const cos = Math.cos(box.turn);
    const sin = Math.sin(box.turn);
    return box.halfWidth * Math.abs(x * cos + y * sin) + box.halfHeight * Math.abs(y * cos - x * sin);
  };
  for (const turn of [a.turn, b.turn]) {
    const cos = Math.cos(turn);
    const sin = Math.sin(turn);
    for (const [x, y] of [
      [cos, sin],
      [-sin, cos],
    ] as const) {
      if (Math.abs(dx * x + dy * y) >= shadow(a, x, y) + shadow(b, x, y)) return false;
    }
  }
  return true;
}

interface Stretch {
  readonly segment: Segment;
  readonly box: Box;
}

const stretch = (segment: Segment): Stretch => ({ segment, box: boxOf(segment) });

/**
 * What lies on a paper while its labels are placed: lines that a label should keep off, barriers it must not
 * cross, bounds it must not leave, and the labels that already stand. Mutable; lives for one paper.
 */
export class Ground {
  readonly #bounds: Box;
  readonly #lines: Stretch[] = [];
  readonly #barriers: Stretch[] = [];
  readonly #labels: { readonly label: LabelBox; readonly around: Box }[] = [];

  constructor(bounds: Box) {
    this.#bounds = bounds;
  }

  /** The same ground with the same labels, to try further ones on. */
  copy(): Ground {
    const ground = new Ground(this.#bounds);
    ground.#lines.push(...this.#lines);
    ground.#barriers.push(...this.#barriers);
    ground.#labels.push(...this.#labels);
    return ground;
  }

  addLine(segment: Segment): void {
    this.#lines.push(stretch(segment));
  }

  addBarrier(segment: Segment): void {
    this.#barriers.push(stretch(segment));
  }

  addLabel(box: LabelBox): void {
    this.#labels.push({ label: box, around: aroundBox(box) });
  }

  /** Inside the bounds, across no barrier, on no other label. */
  isAllowed(box: LabelBox, around = aroundBox(box)): boolean {
    const { minX, minY, maxX, maxY } = this.#bounds;
    if (around.minX < minX || around.minY < minY || around.maxX > maxX || around.maxY > maxY) return false;
    for (const { label, around: other } of this.#labels)
      if (!apart(around, other) && boxesMeet(label, box)) return false;
    return crossings(this.#barriers, box, around, 1) === 0;
  }

  /** Allowed, and on no line. */
  isFree(box: LabelBox): boolean {
    const around = aroundBox(box);
    return this.isAllowed(box, around) && crossings(this.#lines, box, around, 1) === 0;
  }

  /** How many lines run under the box. */
  linesUnder(box: LabelBox): number {
    return crossings(this.#lines, box, aroundBox(box), Number.POSITIVE_INFINITY);
  }

  /** Whether a straight stretch runs over a label. */
  crossesLabel(segment: Segment): boolean {
    return this.#labels.some(({ label }) => boxMeetsSegment(label, segment));
  }

  /** How many lines a straight stretch crosses or touches. */
  linesCrossed([a, b]: Segment): number {
    const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
    const thin: LabelBox = {
      middle: [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2],
      halfWidth: length / 2,
      halfHeight: 0,
      turn: Math.atan2(b[1] - a[1], b[0] - a[0]),
    };
    return this.linesUnder(thin);
  }
}

const apart = (a: Box, b: Box): boolean =>
  a.minX > b.maxX || a.maxX < b.minX || a.minY > b.maxY || a.maxY < b.minY;

function crossings(stretches: readonly Stretch[], box: LabelBox, around: Box, enough: number): number {
  let count = 0;
  for (const { segment, box: other } of stretches) {
    if (apart(other, around)) continue;
    if (boxMeetsSegment(box, segment) && ++count >= enough) return count;
  }
  return count;
}
