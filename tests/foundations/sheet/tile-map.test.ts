import { describe, expect, it } from 'vitest';
import type { Mark, TextMark } from '../../../src/foundations/marks.ts';
import { tileGrid } from '../../../src/foundations/sheet/tile-grid.ts';
import { tileMap } from '../../../src/foundations/sheet/tile-map.ts';
import type { Tile } from '../../../src/foundations/sheet/tiles.ts';
import type { Ring } from '../../../src/geometry/point.ts';
import { distanceToSegment } from '../../../src/geometry/ring.ts';
import { typeface } from '../harbour.ts';

const SIDE = 0.89;

function mapOf(width: number, height: number, outline: Ring): readonly Mark[] {
  const grid = tileGrid({ width, height }, { width: 8, height: 10 });
  const tiles = Array.from(
    { length: grid.columns * grid.rows },
    (_, i): Tile => ({
      column: (i % grid.columns) + 1,
      row: Math.floor(i / grid.columns) + 1,
      width: grid.stepX,
      height: grid.stepY,
      marks: [],
    }),
  );
  return tileMap({ width, height, rings: [outline] }, grid, tiles, SIDE, typeface);
}

const box = (width: number, height: number): Ring => [
  [0, 0],
  [width, 0],
  [width, height],
  [0, height],
];

const numbersOf = (marks: readonly Mark[]): readonly TextMark[] =>
  marks.filter((mark): mark is TextMark => mark.kind === 'text');

describe('the map of tiles', () => {
  it.each([
    [24, 18],
    [30, 1.5],
    [1.5, 36],
    [14, 0.8],
  ])('numbers every tile of a paper of %s × %s in, inside its square and in order', (width, height) => {
    const numbers = numbersOf(mapOf(width, height, box(width, height)));
    const { columns, rows } = tileGrid({ width, height }, { width: 8, height: 10 });
    expect(numbers.map(({ text }) => text)).toEqual(
      Array.from({ length: columns * rows }, (_, i) => String(i + 1)),
    );
    for (const { at, width: long, size } of numbers) {
      expect(at[0]).toBeGreaterThanOrEqual(0);
      expect(at[0] + long).toBeLessThanOrEqual(SIDE);
      expect(at[1] - 0.7 * size).toBeGreaterThanOrEqual(0);
      expect(at[1]).toBeLessThanOrEqual(SIDE);
    }
  });

  it('sets the numbers of a slim paper beside it, not on its lines', () => {
    for (const [width, height] of [
      [30, 1.5],
      [1.5, 36],
    ] as const) {
      const marks = mapOf(width, height, box(width, height));
      const frame = marks.flatMap((mark) => (mark.kind === 'polygon' ? mark.ring : []));
      const right = Math.max(...frame.map(([x]) => x));
      const top = Math.min(...frame.map(([, y]) => y));
      for (const { at } of numbersOf(marks)) expect(at[1] < top || at[0] > right).toBe(true);
    }
  });

  it('divides the paper and not what is beside it', () => {
    const outline: Ring = [
      [0, 4],
      [20, 0],
      [20, 6],
      [0, 6],
    ];
    const marks = mapOf(20, 6, outline);
    const [frame] = marks.flatMap((mark) => (mark.kind === 'polygon' ? [mark.ring] : []));
    const lines = marks.flatMap((mark) => (mark.kind === 'line' ? [mark.points] : []));
    expect(lines).toHaveLength(2);
    for (const end of lines.flat())
      expect(
        Math.min(...frame!.map((a, i) => distanceToSegment(end, a, frame![(i + 1) % frame!.length]!))),
      ).toBeLessThan(1e-9);
  });
});
