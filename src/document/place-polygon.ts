import { snap, snapPoint } from '../geometry/lattice.ts';
import type { Point, Ring } from '../geometry/point.ts';
import { boxOf, signedArea } from '../geometry/ring.ts';
import { isBlockPlace, type Place } from './quilt.ts';

/** How a block lies in the quilt: x' = a x + c y + e, y' = b x + d y + f. A turn, or a mirror image and a turn. */
export interface Lie {
  readonly a: number;
  readonly b: number;
  readonly c: number;
  readonly d: number;
  readonly e: number;
  readonly f: number;
}

/** Cosine of each eighth of a turn; the sine is that of two eighths earlier. */
const COSINES = [1, Math.SQRT1_2, 0, -Math.SQRT1_2, -1, -Math.SQRT1_2, 0, Math.SQRT1_2] as const;

/** Where a point of a block comes to lie. */
export const laid = ({ a, b, c, d, e, f }: Lie, [x, y]: Point): Point =>
  snapPoint([a * x + c * y + e, b * x + d * y + f]);

/** The lie of a block: mirrored from left to right first, then turned, the box round it with its upper left corner at `at`. */
export function lieOf(outline: Ring, turn: number, mirrored: boolean, at: Point): Lie {
  const eighth = (((Math.round(2 * turn) % 8) + 8) % 8) as 0;
  const cos: number = COSINES[eighth];
  const sin: number = COSINES[((eighth + 6) % 8) as 0];
  const flip = mirrored ? -1 : 1;
  const turned: Lie = { a: cos * flip, b: sin * flip, c: -sin, d: cos, e: 0, f: 0 };
  const { minX, minY } = boxOf(outline.map((p) => laid(turned, p)));
  return { ...turned, e: snap(at[0]) - minX, f: snap(at[1]) - minY };
}

/** Corners of a place as it lies, shoelace area positive. `outlineOf` gives a block's outline. */
export function polygonOf(place: Place, outlineOf: (block: string) => Ring): Ring {
  const ring = isBlockPlace(place) ? blockRing(place, outlineOf(place.block)) : plainRing(place);
  return signedArea(ring) < 0 ? ring.toReversed() : ring;
}

function blockRing(
  place: { readonly turn: number; readonly mirrored: boolean; readonly at: Point },
  outline: Ring,
): Ring {
  const lie = lieOf(outline, place.turn, place.mirrored, place.at);
  return outline.map((p) => laid(lie, p));
}

function plainRing({
  at,
  size: [w, h],
  shape,
}: {
  readonly at: Point;
  readonly size: Point;
  readonly shape?: Ring;
}): Ring {
  const corners: Ring = shape ?? [
    [0, 0],
    [w, 0],
    [w, h],
    [0, h],
  ];
  return corners.map(([x, y]) => snapPoint([at[0] + x, at[1] + y]));
}

/** Width and height of the box round a block as it lies. */
export function sizeAsLaid(outline: Ring, turn: number, mirrored = false): Point {
  const lie = lieOf(outline, turn, mirrored, [0, 0]);
  const { minX, minY, maxX, maxY } = boxOf(outline.map((p) => laid(lie, p)));
  return [maxX - minX, maxY - minY];
}
