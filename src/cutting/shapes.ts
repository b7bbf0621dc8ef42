import type { Point, Ring } from '../geometry/point.ts';
import { roundedUp } from './cutting-rules.ts';
import { between, type Frame, opposite, ringIn } from './frame.ts';
import { type GrownPatch, reachOfCloth } from './grown-patch.ts';
import type { Cut } from './piece.ts';

/** A cut, and where its cloth lies over the patch. */
export interface ShapedCut {
  readonly cut: Cut;
  readonly shape: Ring;
}

/** A patch, and how generously it is cut. */
export interface Wanted {
  readonly grown: GrownPatch;
  readonly ease: number;
  readonly step: number;
}

/**
 * How far cloth reaches along -j, from the origin: past a seam just by the allowance, so that what the size holds
 * beyond that lies on the other side; else by allowance and ease.
 */
const startOf = ({ grown, ease }: Wanted, j: Point, past: number | null): number =>
  past ?? reachOfCloth(grown, opposite(j), ease);

/**
 * The rectangle of a frame: the patch grown by allowance and ease on every side, each side rounded up. `size`: one
 * chosen by hand instead.
 */
export function rectangle(
  wanted: Wanted,
  { u, v, past }: Frame,
  size?: { readonly width: number; readonly height: number },
): ShapedCut {
  const { grown, ease, step } = wanted;
  const [right, left] = [reachOfCloth(grown, u, ease), reachOfCloth(grown, opposite(u), ease)];
  const [far, near] = [reachOfCloth(grown, v, ease), reachOfCloth(grown, opposite(v), ease)];
  const width = size?.width ?? roundedUp(right + left, step);
  const height = size?.height ?? roundedUp(far + near, step);
  const from = (right - left - width) / 2;
  const low = past === null ? (far - near - height) / 2 : -past;
  return {
    cut: { kind: 'rectangle', width, height },
    shape: ringIn(u, v, [
      [from, low],
      [from + width, low],
      [from + width, low + height],
      [from, low + height],
    ]),
  };
}

/**
 * Half squares and quarter squares: right triangles with two equal sides, the long one or a short one along u.
 * `keepsGrain`: only those whose straight grain runs along u or v. A half square has it along its short sides, a
 * quarter square along its long one.
 */
export function triangles(wanted: Wanted, frame: Frame, keepsGrain: boolean): readonly ShapedCut[] {
  const { u, v } = frame;
  return [
    ...longSideAlong(wanted, frame, keepsGrain ? ['quarter-square'] : BOTH),
    ...cornerAt(wanted, u, v, frame.past, keepsGrain ? ['half-square'] : BOTH),
    ...cornerAt(wanted, opposite(u), v, frame.past, keepsGrain ? ['half-square'] : BOTH),
  ];
}

type TriangleKind = 'half-square' | 'quarter-square';
const BOTH: readonly TriangleKind[] = ['half-square', 'quarter-square'];

/** The side of the square that a triangle of such legs is cut from. */
const squareFor = (kind: TriangleKind, leg: number, step: number): number =>
  roundedUp(kind === 'half-square' ? leg : leg * Math.SQRT2, step);

const legFrom = (kind: TriangleKind, square: number): number =>
  kind === 'half-square' ? square : square * Math.SQRT1_2;

/** The long side along u, the right angle across from it. */
function longSideAlong(wanted: Wanted, { u, v, past }: Frame, kinds: readonly TriangleKind[]): ShapedCut[] {
  const { grown, ease, step } = wanted;
  const right = reachOfCloth(grown, between(u, v), ease);
  const left = reachOfCloth(grown, between(opposite(u), v), ease);
  const tall = (right + left) * Math.SQRT1_2 + reachOfCloth(grown, opposite(v), ease);
  const middle = (right - left) * Math.SQRT1_2;
  return kinds.map((kind) => {
    const side = squareFor(kind, tall * Math.SQRT2, step);
    const height = legFrom(kind, side) * Math.SQRT1_2;
    const low = past === null ? -reachOfCloth(grown, opposite(v), ease) - (height - tall) / 3 : -past;
    return {
      cut: { kind, width: side, height: side },
      shape: ringIn(u, v, [
        [middle - height, low],
        [middle + height, low],
        [middle, low + height],
      ]),
    };
  });
}

/** Short sides along i and j, the right angle between them; a seam runs along i. */
function cornerAt(
  wanted: Wanted,
  i: Point,
  j: Point,
  past: number | null,
  kinds: readonly TriangleKind[],
): ShapedCut[] {
  const { grown, ease, step } = wanted;
  const leg =
    reachOfCloth(grown, between(i, j), ease) * Math.SQRT2 +
    reachOfCloth(grown, opposite(i), ease) +
    reachOfCloth(grown, opposite(j), ease);
  return kinds.map((kind) => {
    const side = squareFor(kind, leg, step);
    const long = legFrom(kind, side);
    const spare = (long - leg) / 3;
    const a = -reachOfCloth(grown, opposite(i), ease) - spare;
    const b = past === null ? -reachOfCloth(grown, opposite(j), ease) - spare : -past;
    return {
      cut: { kind, width: side, height: side },
      shape: ringIn(i, j, [
        [a, b],
        [a + long, b],
        [a, b + long],
      ]),
    };
  });
}

/**
 * Half rectangles: a right angle at both ends of one side, the side across from it slanting along a side of the
 * patch. Trapezoids and triangles come closest; whatever else is covered likewise.
 */
export function halfRectangles(wanted: Wanted, { u, v, past }: Frame): readonly ShapedCut[] {
  return [
    ...slanting(wanted, u, v, null, past),
    ...slanting(wanted, opposite(u), v, null, past),
    ...slanting(wanted, v, u, past, null),
    ...(past === null ? slanting(wanted, opposite(v), u, null, null) : []),
  ];
}

/** Slants steeper than this against i, as a cosine, are no slants: a rectangle does as well. */
const NEARLY_SQUARE = 0.999;

function slanting(
  wanted: Wanted,
  i: Point,
  j: Point,
  pastI: number | null,
  pastJ: number | null,
): ShapedCut[] {
  const { grown, ease, step } = wanted;
  const low = -startOf(wanted, j, pastJ);
  const height = roundedUp(reachOfCloth(grown, j, ease) + reachOfCloth(grown, opposite(j), ease), step);
  const start = -startOf(wanted, i, pastI);
  // The ease that a seam side does not need itself goes to the far side, as in a rectangle.
  const onward = pastI === null ? 0 : ease;
  const found: ShapedCut[] = [];
  const { corners } = grown;
  for (const [k, a] of corners.entries()) {
    const b = corners[(k + 1) % corners.length]!;
    const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
    if (length === 0) continue;
    const n: Point = [(b[1] - a[1]) / length, (a[0] - b[0]) / length];
    const alongI = n[0] * i[0] + n[1] * i[1];
    const alongJ = n[0] * j[0] + n[1] * j[1];
    if (alongI < 1 - NEARLY_SQUARE || alongI > NEARLY_SQUARE) continue;
    const reach = reachOfCloth(grown, n, ease);
    const sideAt = (t: number): number => {
      const inches = (reach - alongJ * t) / alongI - start + onward;
      return inches <= 0 ? 0 : roundedUp(inches, step);
    };
    const near = sideAt(low);
    const far = sideAt(low + height);
    found.push({
      cut: {
        kind: 'half-rectangle',
        width: near + far,
        height,
        slant: slantSeen(near, far, i[0] * j[1] - i[1] * j[0] > 0),
      },
      shape: ringIn(i, j, [...stretch(start, near, low), ...stretch(start, far, low + height).reverse()]),
    });
  }
  return found;
}

/** Both ends of a side; one point where it has no length. */
const stretch = (start: number, length: number, at: number): Point[] =>
  length > 0
    ? [
        [start, at],
        [start + length, at],
      ]
    : [[start, at]];

/**
 * Both halves of a rectangle are the same shape turned half round, never its mirror image: told by the slant of the
 * cut, seen right side up. Upper and lower side of the left half; of the two halves, turned, the same numbers.
 */
const slantSeen = (near: number, far: number, isUpright: boolean): readonly [number, number] =>
  isUpright ? [near, far] : [far, near];
