import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type Laid, layInLevels, type Rectangle } from '../../../src/foundations/sheet/level-packing.ts';
import { Prng } from '../../designs/prng.ts';

function expectSound(
  items: readonly Rectangle[],
  laid: readonly Laid[],
  sheet: Rectangle,
  gap: number,
): void {
  expect(laid.map(({ item }) => item)).toEqual(items.map((_, i) => i));
  const boxes = laid.map(({ item, sheet: on, x, y, turned }) => {
    const { width, height } = items[item]!;
    return { on, x, y, right: x + (turned ? height : width), bottom: y + (turned ? width : height) };
  });
  for (const box of boxes) {
    expect(box.x).toBeGreaterThanOrEqual(0);
    expect(box.y).toBeGreaterThanOrEqual(0);
    expect(box.right).toBeLessThanOrEqual(sheet.width + 1e-6);
    expect(box.bottom).toBeLessThanOrEqual(sheet.height + 1e-6);
  }
  boxes.forEach((a, i) => {
    for (const b of boxes.slice(i + 1)) {
      if (a.on !== b.on) continue;
      const apart = Math.max(b.x - a.right, a.x - b.right, b.y - a.bottom, a.y - b.bottom);
      expect(apart).toBeGreaterThanOrEqual(gap - 1e-6);
    }
  });
}

describe('laying rectangles in levels', () => {
  it('keeps 500 random sets on the sheet, apart, and not on more sheets than one each', () => {
    for (let seed = 1; seed <= 500; seed++) {
      const random = new Prng(seed);
      const sheet = { width: random.between(4, 12), height: random.between(4, 16) };
      const items = Array.from(
        { length: random.whole(1, 40) },
        (): Rectangle => ({
          width: random.between(0.2, Math.min(sheet.width, sheet.height)),
          height: random.between(0.2, Math.max(sheet.width, sheet.height)),
        }),
      ).filter(
        ({ width, height }) =>
          Math.min(width, height) <= sheet.width && Math.max(width, height) <= sheet.height,
      );
      const fitting = items.filter(
        ({ width, height }) =>
          (width <= sheet.width && height <= sheet.height) ||
          (height <= sheet.width && width <= sheet.height),
      );
      const laid = layInLevels(fitting, sheet, 0.125);
      expectSound(fitting, laid, sheet, 0.125);
      const sheets = new Set(laid.map((one) => one.sheet));
      expect([...sheets].every((on) => on < sheets.size)).toBe(true);
    }
  });

  it('lays four squares of a quarter each on one sheet', () => {
    const items = Array.from({ length: 4 }, () => ({ width: 4, height: 4 }));
    expect(layInLevels(items, { width: 8, height: 8 }, 0).every(({ sheet }) => sheet === 0)).toBe(true);
  });

  it('turns what only fits turned', () => {
    const [laid] = layInLevels([{ width: 9, height: 2 }], { width: 8, height: 10 }, 0.125);
    expect(laid!.turned).toBe(true);
  });

  // Hopper and Turton (2000), sets C1 … C4: optimal heights 20, 15, 30, 60 on strips 20, 40, 60, 60 wide. First fit
  // by falling height needs at most 1.7 × the optimum plus the highest item (Coffman, Garey, Johnson, Tarjan 1980).
  const published = new URL('../../../../shared/data/strip_packing.json', import.meta.url);
  it.skipIf(!existsSync(published))('keeps the published bound on the Hopper and Turton sets', () => {
    const { instances } = JSON.parse(readFileSync(published, 'utf8')) as {
      instances: Record<string, { strip_width: number; optimal_height: number; items: [number, number][] }>;
    };
    expect(Object.keys(instances).length).toBeGreaterThan(5);
    for (const [name, { strip_width, optimal_height, items }] of Object.entries(instances)) {
      const rectangles = items.map(([width, height]) => ({ width, height }));
      const laid = layInLevels(rectangles, { width: strip_width, height: 1e6 }, 0);
      const height = Math.max(
        ...laid.map(
          ({ item, y, turned }) => y + (turned ? rectangles[item]!.width : rectangles[item]!.height),
        ),
      );
      const highest = Math.max(...rectangles.flatMap(({ width, height: high }) => [width, high]));
      expect(height, name).toBeLessThanOrEqual(1.7 * optimal_height + highest);
    }
  });
});
