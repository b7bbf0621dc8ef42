import {
  areaPathsD,
  EndType,
  FillRule,
  inflatePathsD,
  intersectD,
  JoinType,
  type PathsD,
  unionD,
} from 'clipper2-ts';
import { describe, expect, it } from 'vitest';
import { type Nested, type NestOptions, type NestShape, nest } from '../../src/geometry/nest.ts';
import type { Point, Ring } from '../../src/geometry/point.ts';
import { inwardOutline } from '../designs/outlines.ts';
import { Prng } from '../designs/prng.ts';

const QUARTERS: readonly number[] = [0, 1, 2, 3];

/** Turned about the origin clockwise with y down, then moved: written out here once more. */
function placed(ring: Ring, { at, quarterTurns }: Nested): Point[] {
  const angle = quarterTurns * 90 * (Math.PI / 180);
  return ring.map(([x, y]) => [
    at[0] + x * Math.cos(angle) - y * Math.sin(angle),
    at[1] + x * Math.sin(angle) + y * Math.cos(angle),
  ]);
}

/** All rings turning one way, so that what two of them cover is covered. */
const paths = (rings: readonly Ring[]): PathsD =>
  unionD(
    rings.map((ring) => {
      const path = ring.map(([x, y]) => ({ x, y }));
      return areaPathsD([path]) < 0 ? path.reverse() : path;
    }),
    [],
    FillRule.NonZero,
    5,
  );

/** clipper2: shapes on one sheet, each grown by nearly half the gap, have no area in common; none leaves its sheet. */
function expectSound(
  shapes: readonly NestShape[],
  items: readonly number[],
  found: readonly Nested[] | null,
  { sheet, gap }: NestOptions,
  what: string,
): void {
  expect(found, what).toHaveLength(items.length);
  const laid = found!.map((one, i) => ({
    on: one.sheet,
    rings: shapes[items[i]!]!.rings.map((ring) => placed(ring, one)),
  }));
  for (const { rings } of laid) {
    for (const [x, y] of rings.flat()) {
      expect(x, what).toBeGreaterThan(-1e-6);
      expect(y, what).toBeGreaterThan(-1e-6);
      expect(x, what).toBeLessThan(sheet.width + 1e-6);
      expect(y, what).toBeLessThan(sheet.height + 1e-6);
    }
  }
  const grown = laid.map(({ on, rings }) => ({
    on,
    path: inflatePathsD(paths(rings), gap / 2 - 1e-4, JoinType.Round, EndType.Polygon, 2, 5),
  }));
  grown.forEach((a, i) => {
    for (const b of grown.slice(i + 1)) {
      if (a.on !== b.on) continue;
      const common = intersectD(a.path, b.path, FillRule.NonZero, 5);
      expect(Math.abs(areaPathsD(common)), what).toBeLessThan(1e-6);
    }
  });
  const sheets = new Set(found!.map((one) => one.sheet));
  expect([...sheets].every((on) => on >= 0 && on < sheets.size)).toBe(true);
}

function randomShape(random: Prng): Ring {
  const [w, h] = [random.between(0.3, 4), random.between(0.3, 4)];
  switch (random.whole(0, 3)) {
    case 0:
      return [
        [0, 0],
        [w, 0],
        [random.between(0, w), h],
      ];
    case 1:
      return [
        [w / 2, 0],
        [w, h / 3],
        [w / 2, h],
        [0, h / 3],
      ];
    case 2:
      return inwardOutline(random, w).map(([x, y]): Point => [x, y]);
    default:
      return [
        [-w, -h],
        [0, -h],
        [0, 0],
        [-w, 0],
      ];
  }
}

describe('nesting', () => {
  it('keeps 150 random sets on their sheets and apart, by whole quarters and by any turn', () => {
    for (let seed = 1; seed <= 150; seed++) {
      const random = new Prng(seed);
      const shapes = Array.from({ length: random.whole(1, 6) }, (): NestShape => {
        const ring = randomShape(random);
        const turns = random.chance(0.5) ? QUARTERS : [0, 0.37, 1, 1.5, random.between(0, 4)];
        // A label that reaches beyond the outline belongs to the shape.
        const label: Ring = [
          [ring[0]![0] - 0.4, ring[0]![1]],
          [ring[0]![0] + 0.1, ring[0]![1] + 0.2],
          [ring[0]![0], ring[0]![1] + 0.3],
        ];
        return { rings: random.chance(0.3) ? [ring, label] : [ring], turns };
      });
      const items = Array.from({ length: random.whole(1, 25) }, () => random.whole(0, shapes.length - 1));
      const options: NestOptions = {
        sheet: { width: random.between(6, 12), height: random.between(6, 12) },
        gap: random.chance(0.2) ? 0.001 : random.between(0.05, 0.3),
        effort: 1e6,
        seed,
      };
      expectSound(shapes, items, nest(shapes, items, options), options, `seed ${seed}`);
    }
  });

  it('lays two right triangles in the square they were cut from', () => {
    const shape: NestShape = {
      rings: [
        [
          [0, 0],
          [6, 0],
          [0, 6],
        ],
      ],
      turns: QUARTERS,
    };
    const options: NestOptions = { sheet: { width: 6.4, height: 6.4 }, gap: 1 / 8, effort: 0, seed: 1 };
    const found = nest([shape], [0, 0], options);
    expectSound([shape], [0, 0], found, options, 'triangles');
    expect(found!.map(({ sheet }) => sheet)).toEqual([0, 0]);
  });

  it('takes what fills its sheet exactly, and refuses what is larger', () => {
    const rectangle = (width: number, height: number): NestShape => ({
      rings: [
        [
          [0, 0],
          [width, 0],
          [width, height],
          [0, height],
        ],
      ],
      turns: QUARTERS,
    });
    const options: NestOptions = { sheet: { width: 8, height: 9.35 }, gap: 1 / 8, effort: 0, seed: 1 };
    expect(nest([rectangle(8, 9.35)], [0], options)).toHaveLength(1);
    expect(nest([rectangle(9.35, 8)], [0], options)![0]!.quarterTurns % 2).toBe(1);
    expect(nest([rectangle(8.01, 9.35)], [0], options)).toBeNull();
    expect(nest([], [], options)).toEqual([]);
  });

  it('gives the same answer each time, and no worse with more effort', () => {
    const random = new Prng(11);
    const shapes = Array.from(
      { length: 30 },
      (): NestShape => ({ rings: [randomShape(random)], turns: QUARTERS }),
    );
    const items = Array.from({ length: 60 }, (_, i) => i % 30);
    const options: NestOptions = { sheet: { width: 8, height: 9 }, gap: 1 / 8, effort: 2e6, seed: 3 };
    const sheets = (found: readonly Nested[] | null): number =>
      Math.max(...found!.map(({ sheet }) => sheet)) + 1;
    expect(nest(shapes, items, options)).toEqual(nest(shapes, items, options));
    expect(sheets(nest(shapes, items, { ...options, effort: 2e7 }))).toBeLessThanOrEqual(
      sheets(nest(shapes, items, { ...options, effort: 0 })),
    );
  });
});
