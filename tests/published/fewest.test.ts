import { describe, expect, it } from 'vitest';
import type { Block } from '../../src/piecing/block.ts';
import { piece } from '../../src/piecing/piece.ts';
import { checkPlan } from '../checker/check-plan.ts';
import { EveryParting } from '../checker/every-parting.ts';
import { Exhaustive } from '../checker/exhaustive.ts';
import { awkwardBlock } from '../designs/awkward.ts';
import { designOf } from '../designs/designs.ts';
import { allFloorplans, drawnWalls } from '../designs/floorplans.ts';

/**
 * "Proven to be the fewest" is held against trying every straight parting, by a search that knows patches only as
 * outlines. The sentence both stand on (each new patch, and each join, along one straight unbroken stretch) is
 * that of foundation piecing in general: Leake, Bernstein, Davis, Agrawala, "A Mathematical Foundation for
 * Foundation Paper Pieceable Quilts", ACM Transactions on Graphics 40(4), 2021 (the theorem, cited from memory).
 */

const MOST_PATCHES = 14;
const MOST_UNIT_FIRST = 9;

interface Tally {
  tried: number;
  rings: number;
  several: number;
}

/** What is wrong with the number of foundations of a block, plain and with a finished unit first. */
function wrongWith(block: Block, tally: Tally): string[] {
  const plan = piece(block);
  const { length } = plan.patches;
  if (plan.verdict === 'broken' || length > MOST_PATCHES) return [];
  const every = new EveryParting(plan.patches);
  const fewest = every.fewest();
  tally.tried++;
  if (fewest === Number.POSITIVE_INFINITY) {
    tally.rings++;
    return plan.verdict === 'set-in-seams' ? [] : [`${plan.verdict}, and no straight joins will do`];
  }
  if (fewest > 1) tally.several++;
  const wrong: string[] = [];
  if (plan.verdict === 'set-in-seams') wrong.push(`set in, and straight joins do with ${fewest}`);
  else if (plan.sections.length !== fewest)
    wrong.push(`${plan.sections.length} foundations, ${plan.fewest ? 'proven' : 'unproven'}; ${fewest} do`);
  else if (!plan.fewest) wrong.push('the fewest, and not known to be');
  if (length <= MOST_UNIT_FIRST) {
    const papers = piece(block, { plan: 'unit-first' }).sections.length;
    const least = every.fewestUnitFirst();
    if (papers !== least) wrong.push(`${papers} papers with a unit first; ${least} do`);
  }
  return wrong;
}

describe('trying every parting', () => {
  it('comes to the same by two searches of different make', () => {
    for (let seed = 1; seed <= 120; seed++) {
      const { patches } = piece(designOf(seed, { patches: [3, 8] }).block);
      const [every, exhaustive] = [new EveryParting(patches), new Exhaustive(patches)];
      const best = exhaustive.best();
      const isRing = best.corners > 0;
      expect({ seed, fewest: every.fewest() }).toEqual({
        seed,
        fewest: isRing ? Number.POSITIVE_INFINITY : best.foundations,
      });
      if (isRing) continue;
      expect({ seed, unitFirst: every.fewestUnitFirst() }).toEqual({
        seed,
        unitFirst: exhaustive.fewestUnitFirst(),
      });
    }
  });
});

describe('the fewest foundations', () => {
  it.each([1, 2, 3, 4, 5, 6])('of all mosaic floorplans with %i rooms', (rooms) => {
    const tally: Tally = { tried: 0, rings: 0, several: 0 };
    const wrong = allFloorplans(rooms).flatMap((plan, index) => {
      const xs = Array.from({ length: plan.width + 1 }, (_, k) => k * 1.5);
      const ys = Array.from({ length: plan.height + 1 }, (_, k) => k * 1.25);
      const block: Block = {
        id: `floorplan-${index}`,
        name: `Floorplan ${index}`,
        outline: [
          [0, 0],
          [xs.at(-1)!, 0],
          [xs.at(-1)!, ys.at(-1)!],
          [0, ys.at(-1)!],
        ],
        cuts: drawnWalls(plan, xs, ys).map(([from, to], i) => ({ id: `w${i}`, from, to, role: 'auto' })),
        patches: [],
      };
      return wrongWith(block, tally).map((fault) => `${rooms} rooms, number ${index}: ${fault}`);
    });
    expect(wrong).toEqual([]);
    // Baxter numbers (OEIS A001181), and those less the large Schröder numbers (A006318).
    expect(tally.tried).toBe([1, 2, 6, 22, 92, 422][rooms - 1]);
    expect(tally.rings).toBe([0, 0, 0, 0, 2, 28][rooms - 1]);
  });

  it('of 500 random designs of up to 14 patches', () => {
    const tally: Tally = { tried: 0, rings: 0, several: 0 };
    const wrong: string[] = [];
    for (let seed = 40001; seed <= 40500; seed++) {
      const { block } = designOf(seed, { patches: [3, MOST_PATCHES] });
      for (const fault of wrongWith(block, tally)) wrong.push(`seed ${seed}: ${fault}`);
    }
    expect(wrong).toEqual([]);
    expect(tally.tried).toBe(500);
    expect(tally.several).toBeGreaterThan(150);
  });

  it('of 3,000 awkward blocks: outlines turned inward, lines over several arms, tight rows, islands', () => {
    const tally: Tally = { tried: 0, rings: 0, several: 0 };
    const wrong: string[] = [];
    for (let seed = 1; seed <= 3000; seed++)
      for (const fault of wrongWith(awkwardBlock(seed), tally)) wrong.push(`seed ${seed}: ${fault}`);
    expect(wrong).toEqual([]);
    expect(tally.tried).toBeGreaterThan(2000);
    expect(Math.min(tally.rings, tally.several)).toBeGreaterThan(300);
  });
});

describe('one line over two arms of an outline', () => {
  it('is a join only on the arm where seams meet it from both sides', () => {
    // The left arm peels along the line; on the right arm seams come to it from above and from below.
    const block: Block = {
      id: 'b1',
      name: 'Harbour wall',
      outline: [
        [0, 0],
        [2, 0],
        [2, 4],
        [4, 4],
        [4, 0],
        [6, 0],
        [6, 6],
        [0, 6],
      ],
      cuts: [
        { id: 'tide', from: [0, 2], to: [6, 2], role: 'auto' },
        { id: 'ladder', from: [4.75, 0], to: [4.75, 2], role: 'auto' },
        { id: 'post', from: [5.25, 2], to: [5.25, 6], role: 'auto' },
      ],
      patches: [],
    };
    const plan = piece(block);
    expect({ foundations: plan.sections.length, fewest: plan.fewest }).toEqual({
      foundations: 2,
      fewest: true,
    });
    expect(plan.joins.map(({ seam }) => seam)).toEqual([
      [
        [4, 2],
        [6, 2],
      ],
    ]);
  });
});

describe('awkward blocks', () => {
  it('have plans that the checker passes', () => {
    const wrong: string[] = [];
    for (let seed = 1; seed <= 1000; seed++) {
      const block = awkwardBlock(seed);
      const faults = checkPlan(block, piece(block));
      if (faults.length > 0) wrong.push(`seed ${seed}: ${faults[0]}`);
    }
    expect(wrong).toEqual([]);
  });
});

describe('rows and columns', () => {
  const tilted = (axis: 0 | 1) => (seam: readonly (readonly (readonly [number, number])[])[]) => {
    const values = seam.flat().map((p) => p[axis]);
    return Math.max(...values) - Math.min(...values) <= 0.1 / 25.4 ? 0 : 1;
  };

  it.each([
    ['rows', 1],
    ['columns', 0],
  ] as const)('%s: no other plan has fewer joins that run another way, on 500 blocks', (choice, axis) => {
    const wrong: string[] = [];
    let better = 0;
    for (let seed = 1; seed <= 250; seed++)
      for (const block of [designOf(50_000 + seed, { patches: [3, 12] }).block, awkwardBlock(seed)]) {
        const plan = piece(block, { plan: choice });
        if (plan.patches.length > 12 || plan.verdict === 'set-in-seams') continue;
        const count = (joins: typeof plan.joins): number =>
          joins.reduce((sum, { stretches }) => sum + tilted(axis)(stretches), 0);
        const least = new EveryParting(plan.patches).least(tilted(axis));
        const own = count(plan.joins);
        if (own !== least) wrong.push(`${block.name}: ${own} joins askew, ${least} do`);
        if (own < count(piece(block).joins)) better++;
      }
    expect(wrong).toEqual([]);
    expect(better).toBeGreaterThan(5);
  });
});
