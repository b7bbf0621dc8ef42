import { describe, expect, it } from 'vitest';
import { completedByMirror, mirroredHalf, mirroredWeights } from '../../src/picturing/mirror.ts';
import { type PictureBlock, pictureBlocks } from '../../src/picturing/picture-block.ts';
import { sumsOf } from '../../src/picturing/pixels.ts';
import { drawnBlock } from '../../src/picturing/to-block.ts';
import { piece } from '../../src/piecing/piece.ts';
import { checkPlan } from '../checker/check-plan.ts';
import { areaOf } from '../designs/plane.ts';
import { halved, partedPicture } from './made-pictures.ts';

describe('a block with both halves alike', () => {
  it('is its own mirror image, covers the block once, and sews by straight seams', () => {
    for (const seed of [1, 2, 3, 4]) {
      const half = mirroredHalf(partedPicture(seed, 20, 96, 5));
      const results = pictureBlocks(sumsOf(halved(half), 6), sumsOf(half, 6), [0, 0, 6, 0, 6, 12, 0, 12], {
        patches: 14,
        fabrics: 5,
        width: 0.5,
        angle: 20,
        ease: 0.5,
        seed,
        steps: 400,
      });
      let made: PictureBlock | null = null;
      for (let step = results.next(); made === null; step = results.next()) if (step.done) made = step.value;
      const whole = completedByMirror(made, 12, 12);
      const outline = [
        [0, 0],
        [12, 0],
        [12, 12],
        [0, 12],
      ] as const;
      const { block } = drawnBlock(whole, { id: 'b1', name: 'Twin', outline }, [], (n) => `f${n}`);
      const plan = piece(block);
      expect([seed, checkPlan(block, plan)]).toEqual([seed, []]);
      expect(plan.verdict).not.toBe('set-in-seams');
      expect(plan.patches.length).toBe(whole.patches.length);
      expect(plan.patches.reduce((sum, { polygon }) => sum + areaOf(polygon), 0)).toBeCloseTo(144, 6);
      // What stands at a spot stands at its mirror image, in the same fabric.
      const texts = plan.patches.map(({ polygon, fabric }) => sorted(polygon, fabric, (x) => x));
      const turned = plan.patches.map(({ polygon, fabric }) => sorted(polygon, fabric, (x) => 12 - x));
      expect([...turned].sort()).toEqual([...texts].sort());
    }
  });

  it('mixes both halves of the picture, and of what was brushed', () => {
    const data = [10, 0, 0, 255, 20, 0, 0, 255, 40, 0, 0, 255, 90, 0, 0, 255];
    expect(Array.from(mirroredHalf({ width: 4, height: 1, data }).data)).toEqual([
      50, 0, 0, 255, 30, 0, 0, 255,
    ]);
    expect([...mirroredWeights([1, 2, 4, 9], 4, 1)]).toEqual([5, 3]);
  });
});

function sorted(
  polygon: readonly (readonly [number, number])[],
  fabric: string | null,
  turn: (x: number) => number,
): string {
  return `${fabric} ${polygon
    .map(([x, y]) => `${turn(x).toFixed(4)},${y.toFixed(4)}`)
    .sort()
    .join(' ')}`;
}
