import type { Point } from './point.ts';

/** Four corners in turn, either way round. */
export type Quad = readonly [Point, Point, Point, Point];

/**
 * A view of one plane in another, straight lines staying straight: a 3 × 3 matrix by rows that takes [x, y, 1] to
 * something along [u, v, 1]. Known up to a factor.
 */
export type Homography = readonly [number, number, number, number, number, number, number, number, number];

/** Where a point is seen; not finite where it lies on the horizon. */
export function seen([a, b, c, d, e, f, g, h, i]: Homography, [x, y]: Point): Point {
  const w = g * x + h * y + i;
  return [(a * x + b * y + c) / w, (d * x + e * y + f) / w];
}

/**
 * The view that takes [0, 0], [1, 0], [1, 1], [0, 1] to the corners of a quad without dents.
 * Source: P. Heckbert, Fundamentals of Texture Mapping and Image Warping (1989), 2.2.3.
 */
function fromUnitSquare([[x0, y0], [x1, y1], [x2, y2], [x3, y3]]: Quad): Homography {
  const [dx1, dx2, sx] = [x1 - x2, x3 - x2, x0 - x1 + x2 - x3];
  const [dy1, dy2, sy] = [y1 - y2, y3 - y2, y0 - y1 + y2 - y3];
  const whole = dx1 * dy2 - dx2 * dy1;
  const g = (sx * dy2 - dx2 * sy) / whole;
  const h = (dx1 * sy - sx * dy1) / whole;
  return [x1 - x0 + g * x1, x3 - x0 + h * x3, x0, y1 - y0 + g * y1, y3 - y0 + h * y3, y0, g, h, 1];
}

/** The view back: the adjugate, which differs from the inverse by a factor only. */
export const viewBack = ([a, b, c, d, e, f, g, h, i]: Homography): Homography => [
  e * i - f * h,
  c * h - b * i,
  b * f - c * e,
  f * g - d * i,
  a * i - c * g,
  c * d - a * f,
  d * h - e * g,
  b * g - a * h,
  a * e - b * d,
];

/** One view after another: first `inner`, then `outer`. */
function after(outer: Homography, inner: Homography): Homography {
  const cell = (row: number, column: number): number =>
    outer[3 * row]! * inner[column]! +
    outer[3 * row + 1]! * inner[3 + column]! +
    outer[3 * row + 2]! * inner[6 + column]!;
  const rows = [0, 1, 2].flatMap((row) => [cell(row, 0), cell(row, 1), cell(row, 2)]);
  return rows as unknown as Homography;
}

/** The view that takes the corners of one quad to those of another, in turn. Both must be without dents, `isDentless`. */
export const viewOf = (from: Quad, to: Quad): Homography =>
  after(fromUnitSquare(to), viewBack(fromUnitSquare(from)));

/** Whether four corners, either way round, make a shape without dents, crossings or three in a row. */
export function isDentless(quad: Quad): boolean {
  const turns = quad.map((corner, k) => {
    const [x1, y1] = quad[(k + 1) % 4]!;
    const [x2, y2] = quad[(k + 2) % 4]!;
    return (x1 - corner[0]) * (y2 - y1) - (y1 - corner[1]) * (x2 - x1);
  });
  return turns.every((turn) => turn > 0) || turns.every((turn) => turn < 0);
}
