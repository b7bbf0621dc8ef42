import { describe, expect, it } from 'vitest';
import type { Point, Segment } from '../../src/geometry/point.ts';
import type { Block, Cut } from '../../src/piecing/block.ts';
import { piece } from '../../src/piecing/piece.ts';
import { repairsOf } from '../../src/piecing/repairs/find-repairs.ts';
import { applyChange } from '../../src/piecing/repairs/repair.ts';
import { checkPlan } from '../checker/check-plan.ts';
import { EveryParting } from '../checker/every-parting.ts';
import { allFloorplans, drawnWalls, type Floorplan, isGuillotine } from '../designs/floorplans.ts';
import { apart, roundPoint } from '../designs/plane.ts';
import { isRecordList, NEEDS_SHARED, readShared } from './shared-data.ts';

/**
 * Rings: floorplans that no straight full seams part, and their cure.
 *
 * Of the 92 mosaic floorplans with five rooms (Baxter number, OEIS A001181) 90 are slicing (large Schröder number,
 * OEIS A006318): Ackerman, Barequet, Pinter, Journal of Combinatorial Theory A 113(6), 2006. The two others are the
 * spiral of five and its mirror image. Common practice: extend one of the four lines, and one room becomes two.
 */

const rectangle = (width: number, height: number): Point[] => [
  [0, 0],
  [width, 0],
  [width, height],
  [0, height],
];

function blockOf(plan: Floorplan, name: string): Block {
  const rising = (steps: number): number[] =>
    Array.from({ length: steps + 1 }, (_, k) => 1.5 * k + 0.25 * k * k);
  const [xs, ys] = [rising(plan.width), rising(plan.height)];
  return {
    id: name,
    name,
    outline: rectangle(xs.at(-1)!, ys.at(-1)!),
    cuts: drawnWalls(plan, xs, ys).map(([from, to], i) => ({ id: `w${i + 1}`, from, to, role: 'auto' })),
    patches: [],
  };
}

/** Where the endless line through a cut meets a stretch, as inches past the cut's `to`; null where it misses it. */
function meets({ from, to }: Cut, [c, d]: Segment): { past: number; at: Point } | null {
  const length = apart(from, to);
  const [ux, uy] = [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
  const off = (p: Point): number => ux * (p[1] - from[1]) - uy * (p[0] - from[0]);
  const [s, t] = [off(c), off(d)];
  if (Math.abs(s - t) < 1e-6 || (s > 1e-6 && t > 1e-6) || (s < -1e-6 && t < -1e-6)) return null;
  const share = s / (s - t);
  const at: Point = [c[0] + share * (d[0] - c[0]), c[1] + share * (d[1] - c[1])];
  return { past: ux * (at[0] - to[0]) + uy * (at[1] - to[1]), at };
}

/** Every block that comes of drawing one cut on, at one end, to any line it then meets on its way to the edge. */
function extended(block: Block): Block[] {
  const sides = block.outline.map((p, k): Segment => [p, block.outline[(k + 1) % block.outline.length]!]);
  return block.cuts.flatMap((cut, k) =>
    [cut, { ...cut, from: cut.to, to: cut.from }].flatMap((way) => {
      const stops = (lines: readonly Segment[]): { past: number; at: Point }[] =>
        lines.flatMap((line) => meets(way, line) ?? []).filter(({ past }) => past > 1e-3);
      const edge = Math.min(1e9, ...stops(sides).map(({ past }) => past));
      const isOnEdge = sides.some((side) => Math.abs(meets(way, side)?.past ?? 1) < 1e-3);
      if (isOnEdge) return [];
      const lines = block.cuts.filter((other) => other !== cut).map(({ from, to }): Segment => [from, to]);
      return stops([...lines, ...sides])
        .filter(({ past }) => past <= edge + 1e-6)
        .map(({ at }) => ({
          ...block,
          cuts: block.cuts.map((other, i) => (i === k ? { ...way, to: roundPoint(at) } : other)),
        }));
    }),
  );
}

/** The fewest patches that drawing one cut on must add so that straight seams sew the block; infinite if none does. */
function fewestAdded(block: Block): number {
  const { length } = piece(block).patches;
  return extended(block).reduce((best, next) => {
    const { patches } = piece(next);
    if (patches.length - length >= best || patches.length > 30) return best;
    return new EveryParting(patches).fewest() < Number.POSITIVE_INFINITY ? patches.length - length : best;
  }, Number.POSITIVE_INFINITY);
}

const ringsWith = (rooms: number): Floorplan[] =>
  allFloorplans(rooms).filter((plan) => !isGuillotine(plan.rooms));

describe('the two spirals of five rooms', () => {
  const spirals = ringsWith(5);

  it('are two: 92 less 90', () => {
    expect(spirals.length).toBe(92 - 90);
  });

  it.each(spirals.map((plan, k) => blockOf(plan, `Spiral ${k + 1}`)))(
    '$name is mended by drawing one of its four lines on, which adds exactly one patch',
    (block) => {
      const before = piece(block);
      expect(before.verdict).toBe('set-in-seams');
      const ring = before.findings.find(({ code }) => code === 'ring')!;
      expect(ring.patches.length).toBe(5);
      expect(ring.stretches.length).toBe(4);
      const repairs = repairsOf(block);
      // Any of the four lines will do.
      expect(repairs.length).toBeGreaterThanOrEqual(4);
      for (const [k, repair] of repairs.slice(0, 4).entries()) {
        const mended = applyChange(block, repair.change);
        const after = piece(mended);
        expect(after.patches.length).toBe(6);
        expect(after.verdict).toBe('several-foundations');
        expect(checkPlan(mended, after)).toEqual([]);
        expect(repair.after.patches).toBe(6);
        const changed = mended.cuts.filter(
          (cut, i) => cut.from !== block.cuts[i]?.from || cut.to !== block.cuts[i]?.to,
        );
        expect(changed.length, `repair ${k + 1}`).toBe(1);
      }
      expect(fewestAdded(block)).toBe(1);
    },
  );
});

describe('rings: the first repair adds the fewest patches', () => {
  it('that drawing any one cut on can do with, for all floorplans with 6 rooms that are no slicing ones', () => {
    const wrong: string[] = [];
    const rings = ringsWith(6);
    // 422 mosaic floorplans less 394 slicing ones.
    expect(rings.length).toBe(28);
    for (const [k, plan] of rings.entries()) {
      const block = blockOf(plan, `Ring ${k + 1}`);
      const least = fewestAdded(block);
      const first = repairsOf(block)[0];
      const added =
        first && first.after.setInCorners === 0 ? first.after.patches - plan.rooms.length : Number.NaN;
      if (added !== least) wrong.push(`${block.name}: "${first?.sentence}" adds ${added}, ${least} would do`);
    }
    expect(wrong).toEqual([]);
  });

  it('that drawing any one cut on can do with, for 40 floorplans with 7 and 8 rooms', () => {
    const wrong: string[] = [];
    const rings = [
      ...ringsWith(7).filter((_, k) => k % 13 === 0),
      ...ringsWith(8).filter((_, k) => k % 110 === 0),
    ];
    expect(rings.length).toBeGreaterThanOrEqual(40);
    let none = 0;
    for (const [k, plan] of rings.entries()) {
      const block = blockOf(plan, `Ring ${k + 1}`);
      const least = fewestAdded(block);
      const first = repairsOf(block)[0];
      const added =
        first && first.after.setInCorners === 0
          ? first.after.patches - plan.rooms.length
          : Number.POSITIVE_INFINITY;
      if (least === Number.POSITIVE_INFINITY) none++;
      // A cut pulled back or left out may mend what no extension does.
      else if (added !== least)
        wrong.push(`${block.name}: "${first?.sentence}" adds ${added}, ${least} would do`);
    }
    expect(wrong).toEqual([]);
    expect(none).toBeLessThan(rings.length / 2);
  });
});

describe('simple squared rectangles of the shared collection', () => {
  const shared = readShared('data/rectangulations.json');
  const given = isRecordList(shared?.rectangulations) ? shared.rectangulations : [];
  type Tile = readonly [x: number, y: number, width: number, height: number];
  // Simple: all tiles squares of different sizes, and no full line across, as the collection says of them.
  const squared = given.filter((item) => {
    const sides = (item.rects as readonly Tile[]).map(([, , w, h]) => (w === h ? w : 0));
    return !sides.includes(0) && new Set(sides).size === sides.length && item.guillotine === false;
  });

  it.skipIf(shared === null)(
    `are never claimed to be sewn with straight seams, nor a repair of them that does not hold ${NEEDS_SHARED}`,
    () => {
      expect(squared.length).toBeGreaterThan(5);
      for (const item of squared) {
        const [width, height, tiles] = [
          item.width as number,
          item.height as number,
          item.rects as readonly Tile[],
        ];
        const scale = 40 / Math.max(width, height);
        const lines = tiles.flatMap(([x, y, w, h]): Segment[] => [
          ...(x + w < width
            ? [
                [
                  [x + w, y],
                  [x + w, y + h],
                ] as Segment,
              ]
            : []),
          ...(y + h < height
            ? [
                [
                  [x, y + h],
                  [x + w, y + h],
                ] as Segment,
              ]
            : []),
        ]);
        const place = ([x, y]: Point): Point => roundPoint([x * scale, y * scale]);
        const block: Block = {
          id: String(item.id),
          name: String(item.id),
          outline: rectangle(width, height).map(place),
          cuts: lines.map(([a, b], i) => ({ id: `c${i + 1}`, from: place(a), to: place(b), role: 'auto' })),
          patches: [],
        };
        const plan = piece(block);
        expect(plan.verdict, block.name).toBe('set-in-seams');
        expect(plan.fewest, block.name).toBe(false);
        expect(plan.findings.some(({ code, severity }) => code === 'ring' && severity === 'trouble')).toBe(
          true,
        );
        if (tiles.length > 14) continue;
        for (const repair of repairsOf(block)) {
          const after = piece(applyChange(block, repair.change));
          expect(after.verdict, repair.sentence).toBe(repair.after.verdict);
          if (after.patches.length > 20) continue;
          const isStraight = new EveryParting(after.patches).fewest() < Number.POSITIVE_INFINITY;
          expect(after.verdict !== 'set-in-seams', `${block.name}: ${repair.sentence}`).toBe(isStraight);
        }
      }
    },
  );
});
