import { describe, expect, it } from 'vitest';
import { piece } from '../../src/piecing/piece.ts';
import { designOf } from './designs.ts';
import { allFloorplans, isGuillotine, permutationOf, wallsOf } from './floorplans.ts';
import { harbourPicture } from './harbour-picture.ts';
import { areaOf } from './plane.ts';
import { polygonizerFaces } from './polygonizer-peer.ts';
import { Prng } from './prng.ts';

/** The generators themselves must make what they say: a design counted wrong would excuse a wrong plan. */
describe('seeded designs', () => {
  it('have the patches they say, by the JSTS Polygonizer', () => {
    for (let seed = 1; seed <= 120; seed++) {
      const design = designOf(seed, { endErrors: 'none' });
      const { areas, dangles } = polygonizerFaces(
        design.block.outline,
        design.block.cuts.map((cut) => [cut.from, cut.to]),
      );
      expect({ seed, patches: areas.length, dangles }).toEqual({ seed, patches: design.patches, dangles: 0 });
      expect(areas.reduce((sum, area) => sum + area, 0)).toBeCloseTo(
        Math.abs(areaOf(design.block.outline)),
        3,
      );
    }
  });

  it('cover 3 to 80 patches and every kind, turned and straight, with T-junctions and crossings', () => {
    const designs = Array.from({ length: 400 }, (_, i) => designOf(i + 1));
    const counts = designs.map((design) => design.patches);
    expect(Math.min(...counts)).toBe(3);
    expect(Math.max(...counts)).toBe(80);
    expect(new Set(designs.map((design) => design.kind))).toEqual(
      new Set(['chords', 'inward', 'lines', 'star', 'grid', 'floorplan']),
    );
    expect(designs.filter((design) => !design.sewsStraight).length).toBeGreaterThan(20);
  });

  it('have 200 patches where that is asked of a kind that can, and are refused where it cannot', () => {
    for (const kind of ['chords', 'inward', 'lines', 'star', 'grid'] as const) {
      const design = designOf(1, { kind, patches: [190, 210], endErrors: 'none' });
      const lines = design.block.cuts.map(({ from, to }) => [from, to] as const);
      expect(polygonizerFaces(design.block.outline, lines).areas, kind).toHaveLength(design.patches);
      expect(design.patches).toBeGreaterThanOrEqual(190);
      expect(design.patches).toBeLessThanOrEqual(210);
    }
    expect(() => designOf(1, { kind: 'floorplan', patches: [60, 80] })).toThrow('60 to 80 patches');
  });

  it('draw a harbour of about 200 patches that straight joins sew', () => {
    const { block } = harbourPicture();
    const lines = block.cuts.map(({ from, to }) => [from, to] as const);
    const { areas, dangles } = polygonizerFaces(block.outline, lines);
    expect({ patches: areas.length, dangles }).toEqual({ patches: 208, dangles: 0 });
    expect(areas.reduce((sum, area) => sum + area, 0)).toBeCloseTo(24 * 24, 6);
    expect(piece(block).verdict).toBe('several-foundations');
  });

  it('lie on the lattice of 2^-16 in and come out the same every time', () => {
    for (let seed = 1; seed <= 50; seed++) {
      const { block } = designOf(seed);
      const numbers = [...block.outline, ...block.cuts.flatMap((cut) => [cut.from, cut.to])].flat();
      expect(numbers.every((value) => Number.isInteger(value * 65536))).toBe(true);
      expect(designOf(seed).block).toEqual(block);
    }
  });

  it('draw on numbers that are spread evenly', () => {
    const rng = new Prng(7);
    const tenths = new Array<number>(10).fill(0);
    for (let i = 0; i < 100_000; i++) tenths[Math.floor(rng.next() * 10)]!++;
    // Chi-squared with 9 degrees of freedom: 27.9 is passed by chance once in a thousand.
    expect(tenths.reduce((sum, count) => sum + (count - 10_000) ** 2 / 10_000, 0)).toBeLessThan(27.9);
  });
});

describe('floorplans of the corner-insertion tree', () => {
  // Baxter numbers, OEIS A001181, and large Schröder numbers, OEIS A006318: see tests/published.
  it('are as many as published, each once', () => {
    for (const [n, all, slicing] of [
      [1, 1, 1],
      [2, 2, 2],
      [3, 6, 6],
      [4, 22, 22],
      [5, 92, 90],
      [6, 422, 394],
      [7, 2074, 1806],
    ] as const) {
      const plans = allFloorplans(n);
      expect(plans.length).toBe(all);
      expect(plans.filter((plan) => isGuillotine(plan.rooms)).length).toBe(slicing);
      expect(new Set(plans.map((plan) => permutationOf(plan.rooms).join())).size).toBe(all);
    }
  });

  it('fill their rectangle, with one wall fewer than rooms and no two T-junctions on one spot', () => {
    for (const plan of allFloorplans(6)) {
      const filled = plan.rooms.reduce((sum, [x0, y0, x1, y1]) => sum + (x1 - x0) * (y1 - y0), 0);
      expect(filled).toBe(plan.width * plan.height);
      const walls = wallsOf(plan);
      expect(walls.length).toBe(5);
      const ends = walls.flat().map((end) => end.join());
      expect(new Set(ends).size).toBe(ends.length);
    }
  });
});
