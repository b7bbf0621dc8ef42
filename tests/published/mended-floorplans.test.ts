import { describe, expect, it } from 'vitest';
import type { Block, Cut } from '../../src/piecing/block.ts';
import { mend } from '../../src/piecing/mending/mend.ts';
import { piece } from '../../src/piecing/piece.ts';
import { checkMend } from '../checker/check-mend.ts';
import { fewestCut } from '../checker/fewest-cut.ts';
import { allFloorplans, drawnWalls, type Floorplan } from '../designs/floorplans.ts';

/**
 * Floorplans that straight seams do not sew, mended with their rooms as they were. Of the mosaic floorplans with n rooms
 * (Baxter numbers, OEIS A001181) those that full cuts do not make (all but the large Schröder numbers, OEIS A006318;
 * Ackerman, Barequet, Pinter, SODA 2004) need one room cut in two where n is 5 or 6. That no more are needed, and how many
 * where n is 7, comes from trying every cut along a wall below, on the cells of a grid.
 */
const NEED = [
  { rooms: 5, added: { 0: 90, 1: 2 } },
  { rooms: 6, added: { 0: 394, 1: 28 } },
  { rooms: 7, added: { 0: 1806, 1: 268 } },
];

/** Walls at distances no two alike, so that nothing lines up by accident. */
function drawn(plan: Floorplan, index: number): Block {
  const rising = (steps: number, first: number): number[] => {
    const list = [0];
    for (let i = 0; i < steps; i++) list.push(list[i]! + 1.25 + ((first * (i + 3) * 7) % 15) / 16);
    return list;
  };
  const [xs, ys] = [rising(plan.width, 1), rising(plan.height, 2)];
  return {
    id: `floorplan-${index}`,
    name: `Floorplan ${index}`,
    outline: [
      [0, 0],
      [xs.at(-1)!, 0],
      [xs.at(-1)!, ys.at(-1)!],
      [0, ys.at(-1)!],
    ],
    cuts: drawnWalls(plan, xs, ys).map(([from, to], i): Cut => ({ id: `c${i + 1}`, from, to, role: 'auto' })),
    patches: [],
  };
}

describe('floorplans mended', () => {
  it.each(NEED)('with $rooms rooms: as few rooms cut as every cut along a wall finds', ({ rooms, added }) => {
    const count: Record<number, number> = {};
    allFloorplans(rooms).forEach((plan, i) => {
      const fewest = fewestCut(plan.rooms);
      count[fewest] = (count[fewest] ?? 0) + 1;
      if (fewest === 0) return;
      const block = drawn(plan, i);
      const found = mend(block);
      expect([i, found?.added, found?.isProven]).toEqual([i, fewest, true]);
      // Each of the few, and every eighth of the many.
      if (rooms < 7 || i % 8 === 0)
        expect(
          checkMend(piece(block), { ...block, cuts: found!.cuts }, piece({ ...block, cuts: found!.cuts })),
        ).toEqual([]);
    });
    expect(count).toEqual(added);
  });
});
