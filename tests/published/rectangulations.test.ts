import { describe, expect, it } from 'vitest';
import type { Block } from '../../src/piecing/block.ts';
import { mend } from '../../src/piecing/mending/mend.ts';
import { piece } from '../../src/piecing/piece.ts';
import { checkMend } from '../checker/check-mend.ts';
import { checkPlan } from '../checker/check-plan.ts';
import { fewestCut } from '../checker/fewest-cut.ts';
import { isGuillotine, type Room } from '../designs/floorplans.ts';
import { isRecordList, NEEDS_SHARED, readShared } from './shared-data.ts';

type Tile = readonly [x: number, y: number, width: number, height: number];

/** A rectangle tiled by rectangles, each tile's right and lower side drawn as a cut. */
function tiled(name: string, width: number, height: number, tiles: readonly Tile[], scale: number): Block {
  const cuts = tiles.flatMap(([x, y, w, h]) => [
    ...(x + w < width ? [[x + w, y, x + w, y + h] as const] : []),
    ...(y + h < height ? [[x, y + h, x + w, y + h] as const] : []),
  ]);
  return {
    id: name,
    name,
    outline: [
      [0, 0],
      [width * scale, 0],
      [width * scale, height * scale],
      [0, height * scale],
    ],
    cuts: cuts.map(([x1, y1, x2, y2], i) => ({
      id: `c${i + 1}`,
      from: [x1 * scale, y1 * scale],
      to: [x2 * scale, y2 * scale],
      role: 'auto',
    })),
    patches: [],
  };
}

const roomOf = ([x, y, w, h]: Tile): Room => [x, y, x + w, y + h];

/**
 * Squared rectangles: tiled by squares of different sizes. One that is simple holds no smaller one, so no full
 * line crosses it and no straight seams can sew it. Order 9, 33 × 32: Moroń 1925; the other of order 9, 69 × 61:
 * Brooks, Smith, Stone, Tutte, "The dissection of rectangles into squares", Duke Mathematical Journal 7, 1940.
 * Sizes are facts; each is proved a tiling here before it is used.
 */
const SQUARED: readonly { name: string; width: number; height: number; squares: readonly Tile[] }[] = [
  {
    name: 'Moroń 33 × 32',
    width: 33,
    height: 32,
    squares: [
      [0, 0, 18, 18],
      [18, 0, 15, 15],
      [18, 15, 7, 7],
      [25, 15, 8, 8],
      [0, 18, 14, 14],
      [14, 18, 4, 4],
      [14, 22, 10, 10],
      [24, 22, 1, 1],
      [24, 23, 9, 9],
    ],
  },
  {
    name: '69 × 61',
    width: 69,
    height: 61,
    squares: [
      [0, 0, 36, 36],
      [36, 0, 33, 33],
      [36, 33, 5, 5],
      [41, 33, 28, 28],
      [0, 36, 25, 25],
      [25, 36, 9, 9],
      [34, 36, 2, 2],
      [34, 38, 7, 7],
      [25, 45, 16, 16],
    ],
  },
];

describe('simple perfect squared rectangles', () => {
  it.each(SQUARED)('$name needs a seam set in', ({ name, width, height, squares }) => {
    expect(squares.reduce((sum, [, , w, h]) => sum + w * h, 0)).toBe(width * height);
    expect(new Set(squares.map(([, , w]) => w)).size).toBe(squares.length);
    for (const [i, [x, y, w, h]] of squares.entries()) {
      expect(x >= 0 && y >= 0 && x + w <= width && y + h <= height && w === h).toBe(true);
      for (const [x2, y2, w2, h2] of squares.slice(0, i)) {
        expect(x >= x2 + w2 || x2 >= x + w || y >= y2 + h2 || y2 >= y + h).toBe(true);
      }
    }
    const block = tiled(name, width, height, squares, 0.25);
    const plan = piece(block);
    expect(plan.verdict).toBe('set-in-seams');
    expect(plan.patches.length).toBe(squares.length);
    expect(checkPlan(block, plan)).toEqual([]);

    // Mended, its squares as they were: as few of them cut as trying every cut along a side finds.
    const found = mend(block)!;
    const mended = { ...block, cuts: found.cuts };
    expect(checkMend(plan, mended, piece(mended))).toEqual([]);
    expect([found.added, found.isProven]).toEqual([fewestCut(squares.map(roomOf)), true]);
  });
});

describe('published rectangulations of the shared collection', () => {
  const shared = readShared('data/rectangulations.json');
  const given = isRecordList(shared?.rectangulations) ? shared.rectangulations : [];

  it.skipIf(shared === null)(
    `are sewn with straight seams just where they are guillotine ${NEEDS_SHARED}`,
    () => {
      expect(given.length).toBeGreaterThan(50);
      const wrong: string[] = [];
      let guillotine = 0;
      for (const item of given) {
        const tiles = item.rects as readonly Tile[];
        const width = item.width as number;
        const height = item.height as number;
        const block = tiled(String(item.id), width, height, tiles, 60 / Math.max(width, height));
        const plan = piece(block);
        const faults = checkPlan(block, plan);
        const isSliced = isGuillotine(tiles.map(roomOf));
        if (isSliced) guillotine++;
        if (isSliced !== item.guillotine) faults.push(`this test calls it guillotine: ${isSliced}`);
        if (plan.patches.length !== tiles.length)
          faults.push(`${plan.patches.length} patches of ${tiles.length}`);
        if ((plan.verdict !== 'set-in-seams') !== isSliced)
          faults.push(`${plan.verdict}, guillotine: ${isSliced}`);
        if (faults.length > 0) wrong.push(`${block.name}: ${faults.slice(0, 2).join('; ')}`);
      }
      expect(wrong).toEqual([]);
      expect(guillotine).toBeGreaterThan(0);
      expect(guillotine).toBeLessThan(given.length);
    },
  );

  it.skipIf(shared === null)(
    `are mended with fewer cut than there are tiles, and of a dozen with as few as can be ${NEEDS_SHARED}`,
    () => {
      let proven = 0;
      let most = 0;
      for (const [k, item] of given.entries()) {
        const tiles = item.rects as readonly Tile[];
        // The largest take seconds each; of the others every fourth.
        if (item.guillotine || tiles.length > 13 || k % 4 !== 1) continue;
        const [width, height] = [item.width as number, item.height as number];
        const block = tiled(String(item.id), width, height, tiles, 60 / Math.max(width, height));
        const found = mend(block, { mendBudget: 1_000 })!;
        const mended = { ...block, cuts: found.cuts };
        expect([block.name, checkMend(piece(block), mended, piece(mended))]).toEqual([block.name, []]);
        // Berman, DasGupta and Muthukrishnan 2002: n rectangles never need more than n - 1.
        expect([block.name, found.added < tiles.length]).toEqual([block.name, true]);
        most = Math.max(most, found.added);
        if (found.isProven) proven++;
        if (tiles.length <= 12)
          expect([block.name, found.added]).toEqual([block.name, fewestCut(tiles.map(roomOf))]);
      }
      console.log(`Squared and other rectangles mended: ${proven} proven, at most ${most} cut.`);
      expect(proven).toBeGreaterThan(8);
    },
  );
});
