import { describe, expect, it } from 'vitest';
import type { Block } from '../../src/piecing/block.ts';
import { piece } from '../../src/piecing/piece.ts';
import type { PiecingPlan } from '../../src/piecing/plan.ts';
import { checkPlan } from '../checker/check-plan.ts';
import {
  allFloorplans,
  drawnWalls,
  type Floorplan,
  permutationOf,
  type Room,
} from '../designs/floorplans.ts';

/**
 * Every mosaic floorplan with n rooms is drawn as cuts of a rectangle and pieced; the answers are counted.
 *
 * All floorplans: Baxter numbers, OEIS A001181. Yao, Chen, Cheng, Graham, "Floorplan representations: complexity
 * and connections", ACM Transactions on Design Automation of Electronic Systems 8(1), 2003.
 * Sewn by straight full seams, that is slicing or guillotine floorplans: large Schröder numbers, OEIS A006318,
 * n rooms being n - 1 cuts. Ackerman, Barequet, Pinter, "On the number of rectangular partitions", SODA 2004 and
 * Journal of Combinatorial Theory A 113(6), 2006.
 * On one foundation: a(n) = 4 a(n-1) - 2 a(n-2), OEIS A006012.
 */
const BAXTER = [1, 2, 6, 22, 92, 422, 2074];
const SCHROEDER = [1, 2, 6, 22, 90, 394, 1806];
const ONE_FOUNDATION = [1, 2, 6, 20, 68, 232, 792];

/** Walls 1 1/4 to 2 1/8 in apart, no two distances alike, so that nothing lines up by accident. */
function drawn(plan: Floorplan, index: number): Block {
  const rising = (steps: number, first: number): number[] => {
    const list = [0];
    for (let i = 0; i < steps; i++) list.push(list[i]! + 1.25 + ((first * (i + 3) * 7) % 15) / 16);
    return list;
  };
  const xs = rising(plan.width, 1);
  const ys = rising(plan.height, 2);
  const [width, height] = [xs.at(-1)!, ys.at(-1)!];
  return {
    id: `floorplan-${index}`,
    name: `Floorplan ${index}`,
    outline: [
      [0, 0],
      [width, 0],
      [width, height],
      [0, height],
    ],
    cuts: drawnWalls(plan, xs, ys).map(([from, to], i) => ({ id: `wall-${i}`, from, to, role: 'auto' })),
    patches: [],
  };
}

/** The rooms as the plan's patches have them; y turned up again, as the permutation is read. */
function roomsOf(plan: PiecingPlan): Room[] {
  return plan.patches.map((patch) => {
    const xs = patch.polygon.map((p) => p[0]);
    const ys = patch.polygon.map((p) => -p[1]);
    return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
  });
}

function allPermutations(n: number): number[][] {
  if (n === 0) return [[]];
  return allPermutations(n - 1).flatMap((rest) =>
    Array.from({ length: n }, (_, i) => [...rest.slice(0, i), n, ...rest.slice(i)]),
  );
}

/** Does the permutation hold the pattern b-d-a-c or c-a-d-b? `adjacent`: its middle two side by side. */
function holds(p: readonly number[], pattern: '2413' | '3142', adjacent: boolean): boolean {
  const n = p.length;
  for (let i = 0; i < n; i++)
    for (let j = i + 1; j < n; j++)
      for (let k = j + 1; k < (adjacent ? Math.min(j + 2, n) : n); k++)
        for (let l = k + 1; l < n; l++) {
          const [w, x, y, z] = [p[i]!, p[j]!, p[k]!, p[l]!];
          if (pattern === '2413' ? y < w && w < z && z < x : x < z && z < w && w < y) return true;
        }
  return false;
}

const isBaxter = (p: readonly number[]): boolean => !holds(p, '2413', true) && !holds(p, '3142', true);
const isSeparable = (p: readonly number[]): boolean => !holds(p, '2413', false) && !holds(p, '3142', false);

describe('published counts', () => {
  it('are what their formulae say', () => {
    const choose = (n: number, k: number): number => (k === 0 ? 1 : (choose(n - 1, k - 1) * n) / k);
    for (let n = 1; n <= 7; n++) {
      // Baxter's closed form (Chung, Graham, Hoggatt, Kleiman 1978).
      let baxter = 0;
      for (let k = 1; k <= n; k++) baxter += choose(n + 1, k - 1) * choose(n + 1, k) * choose(n + 1, k + 1);
      expect(Math.round(baxter / (choose(n + 1, 1) * choose(n + 1, 2)))).toBe(BAXTER[n - 1]);
      if (n > 2) expect(4 * ONE_FOUNDATION[n - 2]! - 2 * ONE_FOUNDATION[n - 3]!).toBe(ONE_FOUNDATION[n - 1]);
      if (n > 5) continue;
      expect(allPermutations(n).filter(isBaxter).length).toBe(BAXTER[n - 1]);
      expect(allPermutations(n).filter(isSeparable).length).toBe(SCHROEDER[n - 1]);
    }
  });
});

describe.each([1, 2, 3, 4, 5, 6, 7])('floorplans with %i rooms, drawn as cuts', (n) => {
  const blocks = allFloorplans(n).map(drawn);
  const plans = blocks.map((block) => piece(block));
  const permutations = plans.map((plan) => permutationOf(roomsOf(plan)));

  it('are as many as the Baxter number, each with n patches and none like another', () => {
    expect(plans.filter((plan) => plan.patches.length === n).length).toBe(BAXTER[n - 1]);
    expect(new Set(permutations.map(String)).size).toBe(BAXTER[n - 1]);
    if (n <= 6)
      expect(new Set(permutations.map(String))).toEqual(
        new Set(allPermutations(n).filter(isBaxter).map(String)),
      );
  });

  it('are sewn with straight seams as often as the Schröder number, and just where the permutation is separable', () => {
    expect(plans.filter((plan) => plan.verdict !== 'set-in-seams').length).toBe(SCHROEDER[n - 1]);
    plans.forEach((plan, i) => {
      expect(plan.verdict !== 'set-in-seams', blocks[i]!.name).toBe(isSeparable(permutations[i]!));
    });
  });

  it('are sewn on one foundation as often as OEIS A006012 has it', () => {
    const one = plans.filter((plan) => plan.verdict === 'one-foundation' || plan.verdict === 'undivided');
    expect(one.length).toBe(ONE_FOUNDATION[n - 1]);
  });

  it('have plans that the checker passes', () => {
    const faults = plans.flatMap((plan, i) =>
      checkPlan(blocks[i]!, plan).map((fault) => `${blocks[i]!.name}: ${fault}`),
    );
    expect(faults).toEqual([]);
  });
});
