import { describe, expect, it } from 'vitest';
import { blocksOf } from '../../src/picturing/blocks-of.ts';
import { type PictureBlock, pictureBlocks } from '../../src/picturing/picture-block.ts';
import { sumsOf } from '../../src/picturing/pixels.ts';
import { drawnBlock } from '../../src/picturing/to-block.ts';
import { piece } from '../../src/piecing/piece.ts';
import { checkPlan } from '../checker/check-plan.ts';
import { Prng } from '../designs/prng.ts';
import { halved, partedPicture } from './made-pictures.ts';

const [WIDTH, HEIGHT] = [24, 18];

function spread(seed: number, columns: number, rows: number, least: number): PictureBlock {
  const pixels = partedPicture(seed, 30, 96, 6);
  const outline = [0, 0, WIDTH, 0, WIDTH, HEIGHT, 0, HEIGHT];
  const fine = { width: 96, height: 72, data: pixels.data };
  const results = pictureBlocks(sumsOf(halved(fine), WIDTH), sumsOf(fine, WIDTH), outline, {
    patches: 60,
    fabrics: 6,
    width: least,
    angle: 18,
    ease: 0.3,
    seed,
    steps: 1000,
    grid: { columns, rows },
  });
  for (;;) {
    const { done, value } = results.next();
    if (done) return value!;
  }
}

describe('a picture spread over blocks', () => {
  it('gives blocks that each sew by straight seams, none of their patches narrower than it may be', () => {
    for (let seed = 1; seed <= 8; seed++) {
      const rng = new Prng(seed);
      const grid = { columns: rng.whole(1, 4), rows: rng.whole(1, 3) };
      const [w, h] = [WIDTH / grid.columns, HEIGHT / grid.rows];
      const blocks = blocksOf(spread(seed, grid.columns, grid.rows, 0.5), grid, [WIDTH, HEIGHT]);
      expect(blocks).toHaveLength(grid.columns * grid.rows);
      for (const made of blocks) {
        const outline = [
          [0, 0],
          [w, 0],
          [w, h],
          [0, h],
        ] as const;
        const { block } = drawnBlock(made, { id: 'b1', name: 'Part', outline }, [], (n) => `f${n}`);
        const plan = piece(block);
        expect([seed, checkPlan(block, plan)]).toEqual([seed, []]);
        expect(plan.verdict).not.toBe('set-in-seams');
        expect([seed, plan.patches.length]).toEqual([seed, made.patches.length]);
        expect(plan.findings.filter(({ code }) => code === 'sliver' || code === 'sharp-angle')).toEqual([]);
      }
    }
  });

  it('lets lines run on where blocks meet: most that reach an edge are met there by the same line', () => {
    let [met, alone] = [0, 0];
    for (let seed = 1; seed <= 8; seed++) {
      const { lines } = spread(seed, 3, 2, 0.5);
      for (const x of [WIDTH / 3, (2 * WIDTH) / 3]) {
        const ends = lines.flatMap(([x1, y1, x2, y2]): [side: number, y: number, slope: number][] => {
          if (Math.abs(x1 - x2) < 1e-6) return [];
          const slope = (y2 - y1) / (x2 - x1);
          if (Math.abs(x1 - x) < 1e-6) return [[Math.sign(x2 - x1), y1, slope]];
          return Math.abs(x2 - x) < 1e-6 ? [[Math.sign(x1 - x2), y2, slope]] : [];
        });
        for (const [side, y, slope] of ends)
          if (
            ends.some(
              ([other, at, turn]) =>
                other === -side &&
                Math.abs(at - y) < 1e-6 &&
                Math.abs(turn - slope) < 1e-6 * (1 + Math.abs(slope)),
            )
          )
            met++;
          else alone++;
      }
    }
    expect(met).toBeGreaterThan(40);
    expect(met / (met + alone)).toBeGreaterThan(0.6);
  });
});
