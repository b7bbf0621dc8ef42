import { describe, expect, it } from 'vitest';
import { areaOf } from '../designs/plane.ts';
import { polygonizerFaces } from '../designs/polygonizer-peer.ts';
import { benchDesign } from './bench-design.ts';
import { benchFaces, benchPlan } from './benches.ts';
import { growthExponent, median } from './measure.ts';

const HASTY = { warmUpMs: 0, measureMs: 0, leastRuns: 1 };

describe('the benchmark', () => {
  it('runs on its smallest size, and all three find the same faces', () => {
    const row = benchFaces(50, HASTY);
    for (const peer of [row.underpaper, row.jsts, row.clipper]) {
      expect(peer.found).toBe(50);
      expect(peer.ms).toBeGreaterThan(0);
    }
    expect(benchPlan(10, 2, HASTY).ms).toBeGreaterThan(0);
  });

  it('draws designs with the faces it says', () => {
    for (const faces of [2, 7, 60]) {
      const { outline, lines } = benchDesign(faces, faces);
      const { areas } = polygonizerFaces(outline, lines);
      expect(areas.length).toBe(faces);
      expect(areas.reduce((sum, area) => sum + area, 0)).toBeCloseTo(areaOf(outline), 3);
    }
  });

  it('reads medians and exponents right', () => {
    expect(median([5, 1, 3])).toBe(3);
    expect(median([4, 1, 3, 2])).toBe(2.5);
    expect(growthExponent([10, 20, 50].map((n) => [n, 3 * n ** 1.5] as const))).toBeCloseTo(1.5, 10);
  });
});
