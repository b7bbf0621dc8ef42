import { describe, expect, it } from 'vitest';
import type { Point } from '../../src/geometry/point.ts';
import type { Block, Cut } from '../../src/piecing/block.ts';
import { piece } from '../../src/piecing/piece.ts';
import { repairsOf } from '../../src/piecing/repairs/find-repairs.ts';
import { applyChange } from '../../src/piecing/repairs/repair.ts';
import { checkPlan } from '../checker/check-plan.ts';
import { EveryParting } from '../checker/every-parting.ts';

/**
 * The snail's trail, a traditional block older than any copyright: a four patch, and round after round of four
 * triangles, each square standing on the middles of the next one's sides. How it is drawn is common practice.
 *
 * Without a finished unit as position 1 every triangle of the outer rounds must come off along its own seam, and of
 * the innermost round two, before a line runs right across the four patch: 4 papers a round. With one, the four
 * patch takes two papers and a third adds all the triangles in turn, however many rounds there are.
 */
function snailsTrail(rounds: number): Block {
  const cuts: Cut[] = [];
  const add = (from: Point, to: Point): void => {
    cuts.push({ id: `c${cuts.length + 1}`, from, to, role: 'auto' });
  };
  const side = 6;
  let square: Point[] = [
    [0, 0],
    [side, 0],
    [side, side],
    [0, side],
  ];
  const outline = square;
  const middles = (ring: readonly Point[]): Point[] =>
    ring.map((p, k): Point => {
      const q = ring[(k + 1) % 4]!;
      return [(p[0] + q[0]) / 2, (p[1] + q[1]) / 2];
    });
  for (let round = 0; round < rounds; round++) {
    square = middles(square);
    square.forEach((p, k) => {
      add(p, square[(k + 1) % 4]!);
    });
  }
  const [north, east, south, west] = middles(square);
  add(north!, south!);
  add(east!, west!);
  return { id: 'snail', name: 'Snail on the harbour wall', outline, cuts, patches: [] };
}

describe("the snail's trail", () => {
  it.each([1, 2, 3])(
    'of %i rounds: four papers a round, and three with a finished unit as position 1',
    (rounds) => {
      const block = snailsTrail(rounds);
      const plain = piece(block);
      expect(plain.patches.length).toBe(4 + 4 * rounds);
      expect({ papers: plain.sections.length, fewest: plain.fewest }).toEqual({
        papers: 4 * rounds,
        fewest: true,
      });
      expect(checkPlan(block, plain)).toEqual([]);
      const unitFirst = piece(block, { plan: 'unit-first' });
      expect({ papers: unitFirst.sections.length, fewest: unitFirst.fewest }).toEqual({
        papers: 3,
        fewest: true,
      });
      expect(checkPlan({ ...block, plan: 'unit-first' }, unitFirst)).toEqual([]);
      const last = unitFirst.sections.at(-1)!;
      expect(last.startsFrom.length).toBe(2);
      expect(last.order.length).toBe(4 * rounds);
    },
  );

  it('comes to the same by trying every parting', () => {
    for (const rounds of [1, 2]) {
      const every = new EveryParting(piece(snailsTrail(rounds)).patches);
      expect([every.fewest(), every.fewestUnitFirst()]).toEqual([4 * rounds, 3]);
    }
  });

  it('of two rounds is offered the finished unit as its first repair: eight papers become three', () => {
    const block = snailsTrail(2);
    const first = repairsOf(block)[0]!;
    expect(first.change).toEqual({ kind: 'plan', plan: 'unit-first' });
    expect([first.before.foundations, first.after.foundations]).toEqual([8, 3]);
    expect(piece(applyChange(block, first.change)).sections.length).toBe(3);
  });
});
