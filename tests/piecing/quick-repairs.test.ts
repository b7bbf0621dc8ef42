import { describe, expect, it } from 'vitest';
import type { Block } from '../../src/piecing/block.ts';
import { repairsOf } from '../../src/piecing/repairs/find-repairs.ts';
import { awkwardBlock } from '../designs/awkward.ts';
import { type DesignKind, type DesignOptions, designOf } from '../designs/designs.ts';
import { slowRepairsOf } from './slow-repairs.ts';

/** Seeds whose repairs differ from those found the long way. */
function differing(from: number, to: number, blockOf: (seed: number) => Block): string[] {
  const found: string[] = [];
  for (let seed = from; seed <= to; seed++) {
    const block = blockOf(seed);
    const told = (repairs: ReturnType<typeof repairsOf>): string =>
      repairs.map(({ id, before, after }) => JSON.stringify([id, before, after])).join('\n');
    const [quick, slow] = [told(repairsOf(block)), told(slowRepairsOf(block))];
    if (quick !== slow) found.push(`seed ${seed}:\n${quick}\nand the long way\n${slow}`);
  }
  return found;
}

/** UNDERPAPER_THOROUGH=1 looks at 2,210 designs, which takes minutes; else at some hundred, in about ten seconds. */
const IS_THOROUGH = process.env.UNDERPAPER_THOROUGH === '1';
const count = (often: number, thorough: number): number => (IS_THOROUGH ? thorough : often);
const PATIENCE_MS = IS_THOROUGH ? 900_000 : 60_000;

describe('repairs found the quick way are those found the long way', { timeout: PATIENCE_MS }, () => {
  const kinds: readonly DesignKind[] = ['chords', 'inward', 'lines', 'star', 'grid', 'floorplan'];
  for (const kind of kinds)
    it(`${kind}: small designs`, () => {
      const options: DesignOptions = { kind, patches: [3, 12] };
      expect(differing(70_001, 70_000 + count(10, 250), (seed) => designOf(seed, options).block)).toEqual([]);
    });

  it('designs of 15 to 40 patches', () => {
    expect(
      differing(71_001, 71_000 + count(2, 60), (seed) => designOf(seed, { patches: [15, 40] }).block),
    ).toEqual([]);
  });

  it('designs with pinned cuts and hasty ends', () => {
    expect(
      differing(
        72_001,
        72_000 + count(10, 250),
        (seed) => designOf(seed, { patches: [3, 14], pinned: 0.15, endErrors: 'all' }).block,
      ),
    ).toEqual([]);
  });

  it('awkward blocks', () => {
    expect(differing(201, 200 + count(40, 400), awkwardBlock)).toEqual([]);
  });
});
