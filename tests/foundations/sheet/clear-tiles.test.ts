import { describe, expect, it } from 'vitest';
import { alignmentCrosses } from '../../../src/foundations/sheet/crosses.ts';
import { clearOfLines, OVERLAP_IN, tileGrid } from '../../../src/foundations/sheet/tile-grid.ts';
import type { Segment } from '../../../src/geometry/point.ts';
import { distanceToSegment } from '../../../src/geometry/ring.ts';

const room = { width: 8, height: 10 };
const upright = (x: number): Segment => [
  [x, 0],
  [x, 6],
];

/** Where the later of two sheets is trimmed, inches across the paper. */
const trimsOf = ({ columns, stepX }: { readonly columns: number; readonly stepX: number }): number[] =>
  Array.from({ length: columns - 1 }, (_, i) => (i + 1) * stepX + OVERLAP_IN / 2);

describe('where a large paper is divided', () => {
  it('is in the middle when nothing lies there', () => {
    const grid = tileGrid({ width: 12, height: 6 }, room);
    expect(trimsOf(grid)).toEqual([6]);
    expect(clearOfLines(grid, room, [upright(2), upright(9)])).toMatchObject(grid);
  });

  it('keeps 1/8 in from a seam that runs along it, and from a second one beside it', () => {
    const grid = tileGrid({ width: 12, height: 6 }, room);
    const [one] = trimsOf(clearOfLines(grid, room, [upright(6)]));
    expect(one).toBeCloseTo(6.125, 9);
    const [two] = trimsOf(clearOfLines(grid, room, [upright(6), upright(6.15)]));
    expect(two! - 6.15).toBeGreaterThanOrEqual(0.125);
  });

  it('minds a seam that leans a little, not one that crosses it', () => {
    const grid = tileGrid({ width: 12, height: 6 }, room);
    const [leaning] = trimsOf(
      clearOfLines(grid, room, [
        [
          [5.9, 0],
          [6.1, 6],
        ],
      ]),
    );
    expect(leaning! - 6.1).toBeGreaterThanOrEqual(0.125);
    expect(
      clearOfLines(grid, room, [
        [
          [4, 0],
          [8, 6],
        ],
      ]),
    ).toMatchObject(grid);
  });

  it('stays within the room of a sheet, as clear as can be', () => {
    // Two windows of 8 in hold 15 1/2 in and not a hair more.
    const full = tileGrid({ width: 15.5, height: 6 }, room);
    expect(clearOfLines(full, room, [upright(7.75)])).toMatchObject(full);
    for (const width of [9, 12, 15.4, 20, 31]) {
      const grid = tileGrid({ width, height: 6 }, room);
      const clear = clearOfLines(grid, room, trimsOf(grid).map(upright));
      expect(clear.stepX + OVERLAP_IN).toBeLessThanOrEqual(room.width + 1e-9);
      // The last window keeps nine tenths of its part at least.
      expect(width - (grid.columns - 1) * clear.stepX - OVERLAP_IN).toBeGreaterThanOrEqual(
        0.9 * grid.stepX - 0.1,
      );
    }
  });
});

describe('alignment crosses', () => {
  it('slide along their overlap off every seam, staying on it', () => {
    // Level seams a quarter of an inch off each other round where the crosses would stand, one of them aslant.
    const lines: Segment[] = [1.1, 1.2, 1.45, 4.8, 5.05].map((y, i) => [
      [0, y],
      [12, y + (i === 2 ? 0.2 : 0)],
    ]);
    const grid = clearOfLines(tileGrid({ width: 12, height: 6 }, room), room, lines);
    const plain = alignmentCrosses({ ...grid, lines: [] });
    const arms = alignmentCrosses(grid);
    const apart = (a: Segment, b: Segment): number =>
      Math.min(...a.map((p) => distanceToSegment(p, ...b)), ...b.map((p) => distanceToSegment(p, ...a)));
    const nearest = (some: readonly Segment[]): number =>
      Math.min(...some.flatMap((arm) => lines.map((line) => apart(arm, line))));
    expect(nearest(plain)).toBeLessThan(0.02);
    expect(nearest(arms)).toBeGreaterThan(0.02);
    for (const [a, b] of arms) expect((a[0] + b[0]) / 2).toBeCloseTo(6, 9);
  });

  it('stand two on each side that two tiles have in common, on what both show, in every row and column', () => {
    for (const [width, height] of [
      [12, 6],
      [6, 18],
      [21, 17],
      [30, 40],
    ] as const) {
      const grid = tileGrid({ width, height }, room);
      const { columns, rows, stepX, stepY } = grid;
      // Every cross is a level arm and an upright one about one spot.
      const arms = alignmentCrosses(grid);
      const spots = arms
        .filter(([a, b]) => a[1] === b[1])
        .map(([a, b]): readonly [number, number] => [(a[0] + b[0]) / 2, a[1]]);
      expect(arms).toHaveLength(2 * spots.length);
      const windows = Array.from({ length: columns * rows }, (_, i) => {
        const [column, row] = [i % columns, Math.floor(i / columns)];
        const [x, y] = [column * stepX, row * stepY];
        const shared = { x: columns > 1 ? OVERLAP_IN : 0, y: rows > 1 ? OVERLAP_IN : 0 };
        return { column, row, x, y, right: x + stepX + shared.x, foot: y + stepY + shared.y };
      });
      const shownBy = ({ x, y, right, foot }: (typeof windows)[number]) =>
        spots.filter(([sx, sy]) => sx > x && sx < right && sy > y && sy < foot);
      let sides = 0;
      for (const one of windows)
        for (const other of windows) {
          const isBeside = other.row === one.row && other.column === one.column + 1;
          const isUnder = other.column === one.column && other.row === one.row + 1;
          if (!isBeside && !isUnder) continue;
          sides++;
          const common = shownBy(one).filter((spot) => shownBy(other).includes(spot));
          const onSide = common.filter(([x, y]) =>
            isBeside ? Math.abs(x - other.x - 0.25) < 1e-9 : Math.abs(y - other.y - 0.25) < 1e-9,
          );
          expect(onSide, `${width} × ${height}: ${one.column},${one.row}`).toHaveLength(2);
        }
      expect(spots).toHaveLength(2 * sides);
    }
  });
});
