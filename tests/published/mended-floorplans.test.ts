import { describe, expect, it } from 'vitest';
import type { Block, Cut } from '../../src/piecing/block.ts';
import { mend } from '../../src/piecing/mending/mend.ts';
import { piece } from '../../src/piecing/piece.ts';
import { checkMend } from '../checker/check-mend.ts';
import { allFloorplans, drawnWalls, type Floorplan, type Room } from '../designs/floorplans.ts';

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

/** The fewest rooms to cut in two, by trying every level and upright cut along a wall. Knows rooms as four numbers only. */
function fewestCut(rooms: readonly Room[], known = new Map<string, number>()): number {
  if (rooms.length <= 1) return 0;
  const key = rooms.map(String).sort().join(' ');
  const found = known.get(key);
  if (found !== undefined) return found;
  let best = Number.POSITIVE_INFINITY;
  for (const axis of [0, 1] as const) {
    const low = Math.min(...rooms.map((room) => room[axis]));
    for (const at of new Set(rooms.map((room) => room[axis]))) {
      if (at === low) continue;
      const before = rooms.filter((room) => room[axis] < at);
      const after = rooms.filter((room) => room[axis + 2]! > at);
      const cut = before.length + after.length - rooms.length;
      if (cut >= best) continue;
      const ends = before.map((room): Room => withAt(room, axis + 2, Math.min(room[axis + 2]!, at)));
      const starts = after.map((room): Room => withAt(room, axis, Math.max(room[axis], at)));
      best = Math.min(best, cut + fewestCut(ends, known) + fewestCut(starts, known));
    }
  }
  known.set(key, best);
  return best;
}

const withAt = (room: Room, place: number, value: number): Room =>
  room.map((v, i) => (i === place ? value : v)) as unknown as Room;

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
