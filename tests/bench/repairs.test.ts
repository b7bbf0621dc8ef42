import { describe, expect, it } from 'vitest';
import { piece } from '../../src/piecing/piece.ts';
import { benchMending, ringedBlock } from './mending.ts';
import { benchPlan200, benchProven } from './plan-200.ts';
import { benchRepairs } from './repairs.ts';

const HASTY = { warmUpMs: 0, measureMs: 0, leastRuns: 1 };

describe('the benchmark of plans and repairs', () => {
  it('pieces 200 patches, and those who only find faces find as many', () => {
    const row = benchPlan200(HASTY);
    expect(row.patches).toBe(200);
    expect(row.jsts.found).toBe(200);
    if (row.geos) expect(row.geos.found).toBe(200);
    expect(row.planMs).toBeGreaterThan(0);
  });

  it('counts what is proven, and what cannot be sewn straight, in each family', () => {
    for (const { designs, setIn, proven, medianMs, p95Ms, slowestMs } of benchProven(2, HASTY)) {
      expect(setIn + proven).toBeLessThanOrEqual(designs);
      expect(medianMs).toBeLessThanOrEqual(p95Ms);
      expect(p95Ms).toBeLessThanOrEqual(slowestMs);
    }
  });

  it('draws the rings it says, and times mending them', () => {
    for (const rings of [1, 4]) {
      const plan = piece(ringedBlock(rings, 60, rings));
      expect(plan.patches).toHaveLength(60);
      expect(plan.findings.filter(({ code }) => code === 'ring')).toHaveLength(rings);
    }
    const row = benchMending(1, 1, HASTY);
    expect(row).toMatchObject({ patches: 60, added: 1, proven: 1 });
    expect(row.firstMs).toBeLessThanOrEqual(row.allMs);
  });

  it('times repairs', () => {
    for (const row of benchRepairs(1, ['chords'])) expect(row.medianMs).toBeGreaterThan(0);
  });
});
