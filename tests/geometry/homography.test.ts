import { describe, expect, it } from 'vitest';
import { isDentless, type Quad, seen, viewBack, viewOf } from '../../src/geometry/homography.ts';
import type { Point } from '../../src/geometry/point.ts';
import { cross, distance } from '../../src/geometry/ring.ts';
import { Prng } from '../designs/prng.ts';

const SQUARE: Quad = [
  [0, 0],
  [12, 0],
  [12, 12],
  [0, 12],
];

/** A sheet as photographed from the lower left. */
const SLANTED: Quad = [
  [210, 130],
  [1180, 60],
  [1320, 1090],
  [90, 930],
];

/** Quads without dents, as different as photographs of a sheet are. */
function quads(seed: number, count: number): readonly Quad[] {
  const random = new Prng(seed);
  const found: Quad[] = [];
  while (found.length < count) {
    const corner = (x: number, y: number): Point => [
      x * 1000 + random.between(-350, 350),
      y * 1000 + random.between(-350, 350),
    ];
    const quad: Quad = [corner(0, 0), corner(1, 0), corner(1, 1), corner(0, 1)];
    if (isDentless(quad)) found.push(quad);
  }
  return found;
}

const close = (a: Point, b: Point, within = 1e-7): void => expect(distance(a, b)).toBeLessThan(within);

/** Where two lines cross, from the textbook determinant. */
function crossing([[x1, y1], [x2, y2]]: [Point, Point], [[x3, y3], [x4, y4]]: [Point, Point]): Point {
  const by = (x1 - x2) * (y3 - y4) - (y1 - y2) * (x3 - x4);
  const [p, q] = [x1 * y2 - y1 * x2, x3 * y4 - y3 * x4];
  return [(p * (x3 - x4) - (x1 - x2) * q) / by, (p * (y3 - y4) - (y1 - y2) * q) / by];
}

describe('a view of one plane in another', () => {
  const all = [SLANTED, ...quads(20_26, 40)];

  it('takes the four corners to the four corners', () => {
    for (const quad of all) {
      const view = viewOf(SQUARE, quad);
      SQUARE.forEach((corner, k) => {
        close(seen(view, corner), quad[k]!);
      });
      const between = viewOf(SLANTED, quad);
      SLANTED.forEach((corner, k) => {
        close(seen(between, corner), quad[k]!);
      });
    }
  });

  it('keeps straight lines straight, and what crosses crossing', () => {
    for (const quad of all) {
      const view = viewOf(SQUARE, quad);
      const [a, b, c] = [seen(view, [1, 2]), seen(view, [4, 5]), seen(view, [9, 10])];
      expect(Math.abs(cross(a, b, c)) / distance(a, c)).toBeLessThan(1e-7);
      // The middle of a square is where its diagonals cross, whatever it is seen as.
      close(seen(view, [6, 6]), crossing([quad[0], quad[2]], [quad[1], quad[3]]));
    }
  });

  it('keeps the cross-ratio of four points of a line', () => {
    // The one measure that projection keeps: Hartley and Zisserman, Multiple View Geometry (2003), 2.5.
    const ratio = ([a, b, c, d]: readonly Point[]): number =>
      (distance(a!, c!) * distance(b!, d!)) / (distance(b!, c!) * distance(a!, d!));
    const line: readonly Point[] = [
      [1, 3],
      [3, 4],
      [7, 6],
      [11, 8],
    ];
    for (const quad of all) {
      const view = viewOf(SQUARE, quad);
      expect(ratio(line.map((point) => seen(view, point)))).toBeCloseTo(ratio(line), 9);
    }
  });

  it('is the one a pinhole camera makes', () => {
    // A camera that looks down at a sheet on the table, without any of the code above: x/z and y/z of turned places.
    const camera = ([x, y]: Point): Point => {
      const [cos, sin] = [Math.cos(0.6), Math.sin(0.6)];
      const [sx, sy] = [x - 6, y - 6];
      const z = 30 + sy * sin;
      return [(1400 * sx) / z + 800, (1400 * sy * cos) / z + 600];
    };
    const view = viewOf(SQUARE, SQUARE.map(camera) as unknown as Quad);
    for (let x = 0; x <= 12; x += 1.5)
      for (let y = 0; y <= 12; y += 1.5) close(seen(view, [x, y]), camera([x, y]));
  });

  it('comes back', () => {
    for (const quad of all) {
      const view = viewOf(SQUARE, quad);
      for (const point of [
        [0.25, 11],
        [6, 6],
        [10, 1],
      ] as const)
        close(seen(viewBack(view), seen(view, point)), point);
    }
  });

  it('of a quad in itself moves nothing', () => {
    for (const quad of all) close(seen(viewOf(quad, quad), [321, 456]), [321, 456], 1e-6);
  });
});

describe('dents and crossings', () => {
  it('are found, either way round', () => {
    expect(isDentless(SLANTED)).toBe(true);
    expect(isDentless(SLANTED.toReversed() as unknown as Quad)).toBe(true);
    const [a, b, c, d] = SQUARE;
    expect(isDentless([a, c, b, d])).toBe(false);
    expect(isDentless([a, b, [3, 3], d])).toBe(false);
    expect(isDentless([a, [6, 0], b, d])).toBe(false);
    expect(isDentless([a, a, c, d])).toBe(false);
    expect(isDentless([a, b, c, [Number.NaN, 0]])).toBe(false);
  });
});
