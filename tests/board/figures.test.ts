import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { boxAbout, boxesAlong, type Figure, FigureTiles, TILE_PX } from '../../src/board/draw/figures.ts';
import type { Pen } from '../../src/board/draw/pen.ts';
import type { Point } from '../../src/geometry/point.ts';

/** A canvas of 10 × 8 squares that notes what it is asked for, a square at a time. */
const VIEW = { width: 10 * TILE_PX, height: 8 * TILE_PX };

function notingPen() {
  const rects: [number, number, number, number][] = [];
  const ctx = {
    save: () => undefined,
    restore: () => undefined,
    beginPath: () => undefined,
    clip: () => undefined,
    clearRect: () => undefined,
    rect: (...box: [number, number, number, number]) => rects.push(box),
  };
  return { pen: { ctx, camera: { scale: 1, x: 0, y: 0 } } as unknown as Pen, rects };
}

const spotAt = (key: string, at: Point, reach = 5): Figure => ({
  key,
  boxes: () => [boxAbout(at, reach)],
  draw: () => undefined,
});

const middle = (column: number, row: number): Point => [(column + 0.5) * TILE_PX, (row + 0.5) * TILE_PX];

describe('a canvas drawn anew where something has changed', () => {
  it('wipes the square a figure has left and the one it has come to, and paints what stands in them', () => {
    const before = new FigureTiles(VIEW, [spotAt('a1', middle(1, 1)), spotAt('b', middle(5, 5))]);
    const after = new FigureTiles(
      VIEW,
      [spotAt('a2', middle(3, 1)), spotAt('b', middle(5, 5)), spotAt('c', middle(1, 1))],
      before,
    );
    const { pen, rects } = notingPen();
    const painted: unknown[][] = [];
    const left = after.paintIn(pen, after.changedSince(before), (_, figures) =>
      painted.push(figures.map(({ key }) => key)),
    );
    expect(left).toEqual([]);
    expect(rects).toEqual([
      [TILE_PX, TILE_PX, TILE_PX, TILE_PX],
      [3 * TILE_PX, TILE_PX, TILE_PX, TILE_PX],
    ]);
    expect(painted).toEqual([['c'], ['a2']]);
  });

  it('paints nothing when nothing has changed', () => {
    const before = new FigureTiles(VIEW, [spotAt('a', middle(1, 1))]);
    const after = new FigureTiles(VIEW, [spotAt('a', middle(1, 1))], before);
    const { pen } = notingPen();
    let paintings = 0;
    expect(after.paintIn(pen, after.changedSince(before), () => paintings++)).toEqual([]);
    expect(paintings).toBe(0);
  });

  it('paints a canvas of which most has changed whole, in no squares', () => {
    const before = new FigureTiles(VIEW, []);
    const after = new FigureTiles(VIEW, [spotAt('all', middle(5, 4), 10 * TILE_PX)], before);
    const { pen, rects } = notingPen();
    let paintings = 0;
    expect(after.paintIn(pen, after.changedSince(before), () => paintings++)).toEqual([]);
    expect(paintings).toBe(1);
    expect(rects).toEqual([]);
  });

  it('paints whole what would be drawn in many boxes over and over', () => {
    // Four lines right across, each through four squares that have changed and do not lie together.
    const across = (row: number): Figure => ({
      key: `across ${row}`,
      boxes: () => [{ minX: 1, minY: row * TILE_PX + 1, maxX: 9 * TILE_PX, maxY: row * TILE_PX + 9 }],
      draw: () => undefined,
    });
    const lines = [0, 2, 4, 6].map(across);
    const spots = [0, 2, 4, 6].flatMap((row) =>
      [0, 2, 4, 6].map((column) => spotAt(`${row} ${column}`, middle(column, row))),
    );
    const before = new FigureTiles(VIEW, [...lines, ...spots]);
    const after = new FigureTiles(VIEW, lines, before);
    const { pen, rects } = notingPen();
    const painted: unknown[][] = [];
    const left = after.paintIn(pen, after.changedSince(before), (_, here) =>
      painted.push(here.map(({ key }) => key)),
    );
    expect([left, rects]).toEqual([[], []]);
    expect(painted).toEqual([lines.map(({ key }) => key)]);
  });

  it('paints in turns, where that is asked, every changed square once and all that stands in it, in order', () => {
    const spot = fc.record({
      at: fc.tuple(fc.integer({ min: 0, max: VIEW.width }), fc.integer({ min: 0, max: VIEW.height })),
      reach: fc.integer({ min: 1, max: 40 }),
    });
    fc.assert(
      fc.property(fc.array(spot, { maxLength: 40 }), fc.integer({ min: 1, max: 9 }), (spots, most) => {
        const figures = spots.map(({ at, reach }, k) => spotAt(String(k).padStart(2, '0'), at, reach));
        const before = new FigureTiles(VIEW, []);
        const after = new FigureTiles(VIEW, figures, before);
        const changed = after.changedSince(before);
        const seen: number[] = [];
        let owed = changed;
        while (owed.length > 0) {
          const { pen, rects } = notingPen();
          const painted: unknown[][] = [];
          const left = after.paintIn(pen, owed, (_, here) => painted.push(here.map(({ key }) => key)), most);
          // What is painted whole ends the turns.
          if (rects.length === 0) {
            expect(left).toEqual([]);
            return;
          }
          const tiles = rects.flatMap(([x, y, width, height]) =>
            Array.from(
              { length: (width / TILE_PX) * (height / TILE_PX) },
              (_, k) =>
                (y / TILE_PX + Math.floor(k / (width / TILE_PX))) * 10 +
                x / TILE_PX +
                (k % (width / TILE_PX)),
            ),
          );
          expect(left.length).toBe(owed.length - tiles.length);
          seen.push(...tiles);
          for (const [k, [x, y, width, height]] of rects.entries()) {
            const stand = figures.filter((figure) =>
              figure
                .boxes()
                .some(
                  ({ minX, minY, maxX, maxY }) =>
                    minX < x + width && maxX > x && minY < y + height && maxY > y,
                ),
            );
            expect(painted[k]).toEqual(stand.map(({ key }) => key));
          }
          owed = left;
        }
        expect(seen.sort((a, b) => a - b)).toEqual(changed);
      }),
    );
  });

  it('covers every place of a line with the reach of its ink, whichever way it runs', () => {
    const coordinate = fc.integer({ min: -400, max: 400 });
    const point = fc.tuple(coordinate, coordinate);
    fc.assert(
      fc.property(point, point, fc.double({ min: 0, max: 1, noNaN: true }), ([ax, ay], [bx, by], share) => {
        const reach = 4;
        const boxes = boxesAlong(
          [
            [ax, ay],
            [bx, by],
          ],
          reach,
        );
        const [x, y] = [ax + share * (bx - ax), ay + share * (by - ay)];
        for (const [dx, dy] of [
          [0, 0],
          [reach - 0.01, 0],
          [0, -reach + 0.01],
          [-reach + 0.01, reach - 0.01],
        ] as const)
          expect(
            boxes.some(
              ({ minX, minY, maxX, maxY }) =>
                x + dx >= minX && x + dx <= maxX && y + dy >= minY && y + dy <= maxY,
            ),
          ).toBe(true);
        for (const { minX, minY, maxX, maxY } of boxes)
          expect(Math.max(maxX - minX, maxY - minY)).toBeLessThanOrEqual(TILE_PX + 2 * reach + 1e-6);
      }),
    );
  });
});
