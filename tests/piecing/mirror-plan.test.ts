import { describe, expect, it } from 'vitest';
import { turnedOver } from '../../src/document/turned-over.ts';
import { boxOf, signedArea } from '../../src/geometry/ring.ts';
import { mirrorPlan } from '../../src/piecing/mirror-plan.ts';
import { piece } from '../../src/piecing/piece.ts';
import { verifyPlan } from '../../src/piecing/verify.ts';
import { designOf } from '../designs/designs.ts';

const widthSum = (outline: Parameters<typeof boxOf>[0]): number => {
  const { minX, maxX } = boxOf(outline);
  return minX + maxX;
};

describe('a plan turned over', () => {
  it('is a good plan of the block turned over, by the checks that every plan passes', () => {
    for (let seed = 1; seed <= 60; seed++) {
      const { block } = designOf(seed, {
        patches: [3, 22],
        ...(seed % 4 === 0 && { kind: 'floorplan' as const }),
      });
      const plan = piece(block, {
        plan: seed % 5 === 0 ? 'unit-first' : seed % 3 === 0 ? 'partial-seams' : 'fewest',
      });
      const over = mirrorPlan(plan, widthSum(block.outline));
      const image = turnedOver(block);
      expect(verifyPlan(over, image), `seed ${seed}`).toEqual([]);
      for (const { polygon } of over.patches) expect(signedArea(polygon)).toBeGreaterThan(0);
      expect(over.patches.map(({ id, key }) => [id, key])).toEqual(
        plan.patches.map(({ id, key }) => [id, key]),
      );
    }
  });

  it('twice over is as it was, and other papers than the first have other stamps', () => {
    const { block } = designOf(7, { kind: 'chords', patches: [8, 8] });
    const plan = piece(block, {});
    const sum = widthSum(block.outline);
    const over = mirrorPlan(plan, sum);
    const back = mirrorPlan(over, sum);
    expect(back.sections.map(({ stamp }) => stamp)).toEqual(plan.sections.map(({ stamp }) => stamp));
    expect(back.edges).toEqual(plan.edges);
    expect(over.sections.map(({ stamp }) => stamp)).not.toEqual(plan.sections.map(({ stamp }) => stamp));
  });
});
