import { describe, expect, it } from 'vitest';
import type { CutSize } from '../../src/cutting/strips/cloth.ts';
import { layStrips, QUICK_STEPS, THOROUGH_STEPS } from '../../src/cutting/strips/lay-strips.ts';
import { stripBound } from '../../src/cutting/strips/strip-bound.ts';
import { Prng } from '../designs/prng.ts';
import { benchCuts, firstFitLength } from './bench-cuts.ts';

function faultsOf(items: readonly CutSize[], width: number, strips: ReturnType<typeof layStrips>): string[] {
  const faults: string[] = [];
  const seen = new Set<number>();
  for (const { height, cuts } of strips) {
    if (cuts.reduce((sum, cut) => sum + cut.width, 0) > width + 1e-6) faults.push('wider than the fabric');
    for (const cut of cuts) {
      const item = items[cut.item]!;
      const same = cut.width === item.width && cut.height === item.height;
      const turned = cut.width === item.height && cut.height === item.width;
      if (!(same || (turned && item.turns))) faults.push(`cut ${cut.item} has another size`);
      if (cut.height > height + 1e-9) faults.push(`cut ${cut.item} is taller than its strip`);
      if (seen.has(cut.item)) faults.push(`cut ${cut.item} is laid twice`);
      seen.add(cut.item);
    }
    if (Math.abs(Math.max(...cuts.map((cut) => cut.height)) - height) > 1e-9) faults.push('a strip too tall');
  }
  if (seen.size !== items.length) faults.push('cuts are left out');
  return faults;
}

const lengthOf = (strips: ReturnType<typeof layStrips>): number =>
  strips.reduce((sum, { height }) => sum + height, 0);

describe('strips', () => {
  it('hold every cut once, within the fabric, never longer than first fit, never under the bound', () => {
    for (let seed = 1; seed <= 200; seed++) {
      const rng = new Prng(seed);
      const width = rng.pick([10, 18, 40, 42.3, 105 / 2.54]);
      const step = rng.pick([1 / 4, 1 / 8, 5 / 25.4, 0.0137]);
      const items = Array.from({ length: rng.whole(0, 40) }, (): CutSize => {
        const size = (): number => Math.min(9, rng.whole(1, Math.round(6 / step)) * step);
        return { width: size(), height: size(), turns: rng.chance(0.7) };
      });
      for (const steps of [QUICK_STEPS, 300_000]) {
        const strips = layStrips(items, width, steps);
        expect(faultsOf(items, width, strips), `seed ${seed}`).toEqual([]);
        expect(lengthOf(strips), `seed ${seed}`).toBeLessThanOrEqual(firstFitLength(items, width) + 1e-6);
        expect(lengthOf(strips), `seed ${seed}`).toBeGreaterThanOrEqual(
          stripBound(items, width).length - 1e-6,
        );
      }
    }
  });

  it('come out the same every time', () => {
    const items = benchCuts(7, 60);
    expect(layStrips(items, 40, 1e6)).toEqual(layStrips(items, 40, 1e6));
  });

  it('are as full as a person with a cutter can wish', () => {
    for (const [count, least] of [
      [60, 0.9],
      [150, 0.96],
      [500, 0.985],
    ] as const) {
      const items = benchCuts(3, count);
      const area = items.reduce((sum, { width, height }) => sum + width * height, 0);
      expect(area / (40 * lengthOf(layStrips(items, 40, THOROUGH_STEPS)))).toBeGreaterThanOrEqual(least);
    }
  });

  it('keep what cannot be turned, and end soon where there is nothing to find', () => {
    const arrow: CutSize = { width: 3, height: 5, turns: false };
    expect(layStrips([arrow, arrow], 40, 1e5)).toEqual([
      {
        height: 5,
        cuts: [
          { item: 0, width: 3, height: 5 },
          { item: 1, width: 3, height: 5 },
        ],
      },
    ]);
    expect(layStrips([], 40, 1e9)).toEqual([]);
    // Two strips that nothing can shorten: the search gives up on them at a price of its own.
    expect(
      lengthOf(
        layStrips(
          [
            { width: 40, height: 2, turns: false },
            { width: 40, height: 3, turns: false },
          ],
          40,
          1e7,
        ),
      ),
    ).toBe(5);
  });
});

describe('the bound', () => {
  it('says what it rests on', () => {
    const cut = (width: number, height: number): CutSize => ({ width, height, turns: false });
    expect(stripBound([cut(20, 2), cut(20, 2)], 40)).toEqual({ length: 2, kind: 'area' });
    expect(stripBound([cut(2, 30), cut(20, 2)], 40)).toEqual({ length: 30, kind: 'tallest' });
    expect(stripBound([cut(21, 2), cut(25, 3)], 40)).toEqual({ length: 5, kind: 'wide' });
    expect(stripBound([], 40).length).toBe(0);
  });
});
